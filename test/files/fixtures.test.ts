import { readdirSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { describe, expect, it } from 'vitest'
import {
  drawerFormat,
  drawerText,
  readDrawer,
  readSupply,
  supplyFormat,
  supplyText,
} from '../../src/engine/file/file.ts'
import { fileSchemas } from '../../src/engine/file/schema.ts'

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url))
const names = readdirSync(here('.')).filter((name) => name.endsWith('.json'))

describe('files of every version that was ever written open', () => {
  it('has a file of each kind for each version', () => {
    for (let v = 1; v <= supplyFormat.version; v++) expect(names).toContain(`v${v}.supply.json`)
    for (let v = 1; v <= drawerFormat.version; v++) expect(names).toContain(`v${v}.drawer.json`)
  })

  it.each(names)('%s', (name) => {
    const text = readFileSync(here(name), 'utf8')
    const version = Number(/^v(\d+)\./.exec(name)?.[1])
    const isSupply = name.endsWith('.supply.json')
    const newest = isSupply ? supplyFormat.version : drawerFormat.version
    const result = isSupply ? readSupply(text) : readDrawer(text)
    expect(result).toMatchObject({ ok: true, migratedFrom: version < newest ? version : null })
  })

  it('writes the newest ones again byte for byte', () => {
    const supply = readFileSync(here(`v${supplyFormat.version}.supply.json`), 'utf8')
    const drawer = readFileSync(here(`v${drawerFormat.version}.drawer.json`), 'utf8')
    const readS = readSupply(supply)
    const readD = readDrawer(drawer)
    expect(readS.ok && supplyText(readS.value)).toBe(supply)
    expect(readD.ok && drawerText(readD.value)).toBe(drawer)
  })
})

describe('readings of the transformer that older files do not have', () => {
  const old = () => JSON.parse(readFileSync(here('v1.supply.json'), 'utf8'))
  const meter = { instrument: 'tester', frequency_Hz: null, accuracy: 0.1 }
  const tests = {
    saturationCurrent_A: { value: 1.8, ...meter },
    secondaryVoltsRatio: { value: 7.9, ...meter },
    biasVoltsRatio: null,
    insulation_ohm: { value: 2e12, ...meter, test_V: 500 },
  }
  const withReadings = (asBuilt: object) => {
    const file = old()
    return JSON.stringify({
      ...file,
      bench: { ...file.bench, asBuilt: { ...file.bench.asBuilt, ...asBuilt } },
    })
  }

  it('are not asked for, and not written where they are not there', () => {
    for (const field of Object.keys(tests)) expect(old().bench.asBuilt).not.toHaveProperty(field)
    const read = readSupply(JSON.stringify(old()))
    expect(read.ok && supplyText(read.value)).toBe(readFileSync(here('v1.supply.json'), 'utf8'))
  })

  it('are kept to the digit', () => {
    const read = readSupply(withReadings(tests))
    expect(read.ok && read.value.bench.asBuilt).toMatchObject(tests)
    const again = readSupply(read.ok ? supplyText(read.value) : '')
    expect(again).toEqual(read)
  })

  it.each([
    [{ saturationCurrent_A: { value: -1, ...meter } }, 'bench.asBuilt.saturationCurrent_A.value'],
    [
      { saturationCurrent_A: { value: 1.8, ...meter, test_V: 500 } },
      'bench.asBuilt.saturationCurrent_A.test_V',
    ],
    [{ insulation_ohm: { value: 2e9, ...meter } }, 'bench.asBuilt.insulation_ohm.test_V'],
    [{ insulation_ohm: { value: 2e9, ...meter, test_V: 2e4 } }, 'bench.asBuilt.insulation_ohm.test_V'],
    [{ secondaryVoltsRatio: { value: '8', ...meter } }, 'bench.asBuilt.secondaryVoltsRatio.value'],
  ])('are refused where they are wrong: %j', (asBuilt, path) => {
    const read = readSupply(withReadings(asBuilt))
    expect(read).toMatchObject({ ok: false, problems: [{ path }] })
  })
})

describe('the published JSON Schema', () => {
  it.each(['supply', 'drawer'] as const)(
    'of a %s is what the reader uses; `npm run docs` writes it',
    (kind) => {
      const text = readFileSync(here(`../../docs/schema/${kind}.schema.json`), 'utf8')
      expect(text).toBe(`${JSON.stringify(fileSchemas()[kind], null, 2)}\n`)
    },
  )
})
