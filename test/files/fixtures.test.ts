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

describe('the published JSON Schema', () => {
  it.each(['supply', 'drawer'] as const)(
    'of a %s is what the reader uses; `npm run docs` writes it',
    (kind) => {
      const text = readFileSync(here(`../../docs/schema/${kind}.schema.json`), 'utf8')
      expect(text).toBe(`${JSON.stringify(fileSchemas()[kind], null, 2)}\n`)
    },
  )
})
