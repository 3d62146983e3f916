import { describe, expect, it } from 'vitest'
import { type Format, migrate } from './migrate.ts'

/** A format with a history: version 2 renamed a field, version 3 gave it a unit. */
const format: Format = {
  name: 'thing',
  version: 3,
  migrations: {
    1: ({ gap, ...rest }) => ({ ...rest, gap_mm: gap ?? null }),
    2: ({ gap_mm, ...rest }) => ({ ...rest, gap_m: typeof gap_mm === 'number' ? gap_mm / 1000 : null }),
  },
}

describe('migration', () => {
  it('takes an old file forward through every version', () => {
    expect(migrate({ format: 'thing', version: 1, gap: 0.5 }, format)).toEqual({
      ok: true,
      value: { format: 'thing', version: 3, gap_m: 0.0005 },
      migratedFrom: 1,
    })
  })

  it('leaves the newest version as it is', () => {
    const newest = { format: 'thing', version: 3, gap_m: 1 }
    expect(migrate(newest, format)).toEqual({ ok: true, value: newest, migratedFrom: null })
  })

  it('says so when a step is missing', () => {
    const result = migrate({ format: 'thing', version: 1 }, { ...format, migrations: {} })
    expect(result).toEqual({ ok: false, path: 'version', message: '1 is too old to be read', value: '1' })
  })
})
