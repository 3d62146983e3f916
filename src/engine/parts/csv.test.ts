import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { readCsv, withFormula, withoutFormula } from './csv-text.ts'
import { type Drawer, exportDrawerCsv, findEntry, importDrawerCsv, starterDrawer } from './index.ts'

const taken = (text: string): Drawer => {
  const result = importDrawerCsv(text, 'table')
  if (!result.ok) throw new Error(JSON.stringify(result.problems.slice(0, 5), null, 1))
  return result.drawer
}
const refused = (text: string) => {
  const result = importDrawerCsv(text, 'table')
  return result.ok ? [] : result.problems
}

const fuses = (rows: string) =>
  `kind,quantity,id,name,rated [A],voltage [V],speed,meltingIntegral [A2s],breaking [A],resistance [ohm]\n${rows}`

describe('a drawer as a table', () => {
  it('comes back exactly', () => {
    for (const separator of [',', ';'] as const)
      expect(importDrawerCsv(exportDrawerCsv(starterDrawer, separator), starterDrawer.name)).toEqual({
        ok: true,
        drawer: starterDrawer,
      })
  })

  it('takes quantities as people type them, and another unit of the header', () => {
    const drawer = taken(fuses('fuse,"2,5",f1,Mine,"3,15 A",250V,Slow,30 A²s,1.5kA,22m\r\n'))
    expect(drawer.entries[0]).toEqual({
      quantity: 2.5,
      part: {
        kind: 'fuse',
        id: 'f1',
        name: 'Mine',
        rated_A: 3.15,
        voltage_V: 250,
        speed: 'slow',
        meltingIntegral_A2s: 30,
        breaking_A: 1500,
        resistance_ohm: 0.022,
      },
    })
    const milli = fuses('fuse,,f1,Mine,2,250,slow,30,1500,22').replace('[ohm]', '[mohm]')
    expect(taken(milli).entries[0]).toMatchObject({ quantity: null, part: { resistance_ohm: 0.022 } })
  })

  it('takes a wire by its gauge and a spread by its tolerance', () => {
    const wire = taken(
      'kind;id;name;construction;bare [mm];grade;overall [mm];temperature [C]\nwire;w;W;enamelled;AWG 28;2;0,37;155 °C',
    )
    expect(findEntry(wire, 'w')?.part).toMatchObject({
      bare_m: 0.127e-3 * 92 ** (8 / 39),
      grade: 2,
      overall_m: 0.37e-3,
    })
    const device = taken(
      'kind,id,name,breakdown [V],clampVoltage [V],clampCurrent [A],power [W],junctionToAmbient [K/W],maximumJunction [C]\n' +
        'avalanche,a,A,200 ±5 %,274,2.2,5,75,175',
    )
    expect(findEntry(device, 'a')?.part).toMatchObject({
      breakdown_V: { minimum: 190, typical: 200, maximum: 210 },
    })
  })

  it('takes a byte order mark, a separator line, tabs, lone carriage returns and empty lines', () => {
    const row = 'fuse,,f1,Mine,2,250,slow,30,1500,0.02'
    const plain = taken(fuses(row))
    for (const alike of [
      `\uFEFF${fuses(row)}`,
      `sep=;\r\n${fuses(row).replaceAll(',', ';')}`,
      fuses(row).replaceAll(',', '\t'),
      fuses(`\n,,,,,,,,,\n${row}\n\n`),
      fuses(row).replaceAll('\n', '\r'),
    ])
      expect(taken(alike)).toEqual(plain)
  })

  it('takes the example of the guide', () => {
    const guide = readFileSync(new URL('../../../docs/parts.md', import.meta.url), 'utf8')
    const example = /```\n(kind,[^`]*)```/.exec(guide)![1]!
    expect(taken(example).entries).toMatchObject([
      { quantity: 10, part: { rated_A: 2, resistance_ohm: 0.042 } },
    ])
  })

  it('names row, column, value and limit', () => {
    expect(refused(fuses('fuse,,f1,Mine,200 A,250,slow,30,1500,0.02'))).toEqual([
      { row: 2, column: 'rated [A]', value: '200 A', message: 'must be at most 100\u202fA' },
    ])
    expect(refused(fuses('fuse,,f1,Mine,2 kg,250,slow,30,1500,0.02'))[0]).toEqual({
      row: 2,
      column: 'rated [A]',
      value: '2 kg',
      message: '"2 kg" is not a current (kg is not its unit); write it as 2.5 A',
    })
    expect(refused(fuses('fuse,,f1,Mine,2,,slow,30,1500,0'))).toEqual([
      { row: 2, column: 'voltage [V]', value: '', message: 'is missing' },
      { row: 2, column: 'resistance [ohm]', value: '0', message: 'must be above 0\u202fΩ' },
    ])
    const [speed] = refused(fuses('fuse,,f1,Mine,2,250,quick,30,1500,0.02'))
    expect(speed).toMatchObject({ column: 'speed', value: 'quick', message: 'must be one of slow, fast' })
  })

  it('refuses unknown kinds, headers, fields of other kinds, ids used twice', () => {
    expect(refused(fuses('wheel,,f1,Mine,2,250,slow,30,1500,0.02'))[0]).toMatchObject({
      row: 2,
      column: 'kind',
    })
    expect(refused('kind,id,colour\n')[0]).toMatchObject({ row: 1, column: 'colour' })
    expect(refused('kind,id,rated [V]\n')[0]).toMatchObject({ row: 1, column: 'rated [V]' })
    expect(refused('name\n').map((p) => p.column)).toEqual(['kind', 'id'])
    expect(refused('kind,id,name,rated [A]\nlamp,l,L,3')[0]).toMatchObject({
      column: 'rated [A]',
      message: 'a part of kind lamp has no such field',
    })
    const twice = 'fuse,,f1,Mine,2,250,slow,30,1500,0.02\n'
    expect(refused(fuses(twice + twice))).toEqual([
      { row: 3, column: 'id', value: 'f1', message: 'this id is already used in row 2' },
    ])
  })

  it('says which fields do not go together', () => {
    const problems = refused(
      'kind,id,name,construction,bare [mm],grade,overall [mm],strands,temperature [C]\nwire,w,W,enamelled,0.5,1,0.544,20,155',
    )
    expect(problems[0]?.message).toContain('strands')
    expect(refused('kind,id,name,temperature [C]\nwire,w,W,155')[0]).toMatchObject({
      column: 'construction',
      message: 'is missing, and decides which other fields the part has',
    })
  })

  it('keeps formulas from running in a spreadsheet', () => {
    for (const text of ['=1+1', '+1 V', '-x', '@sum', '\tx', '\rx', "'=1", "''-x", '＝1']) {
      const cell = withoutFormula(text)
      expect(cell.startsWith("'")).toBe(true)
      expect(withFormula(cell)).toBe(text)
    }
    for (const text of ['-40', '1e-3', 'plain', "'quoted'", '']) expect(withoutFormula(text)).toBe(text)
    const entry = starterDrawer.entries[0]!
    const sly = { ...starterDrawer, entries: [{ ...entry, part: { ...entry.part, note: '=cmd|x!A1' } }] }
    const table = exportDrawerCsv(sly)
    expect(table).toContain(",'=cmd|x!A1,")
    expect(taken(table).entries).toEqual(sly.entries)
  })

  it('refuses broken or outsized tables', () => {
    expect(refused('kind,id\nfuse,"f')[0]).toMatchObject({
      row: 2,
      message: 'a quote is opened and not closed',
    })
    expect(refused('kind,id\nfuse,"f"g')[0]?.message).toContain('text follows a closing quote')
    expect(refused('x'.repeat(5_000_001))[0]?.message).toContain('over the limit of 5000000')
    expect(refused(`kind,id\n${'lamp,x\n'.repeat(5001)}`)[0]?.message).toContain('more than 5000 rows')
    expect(refused(','.repeat(500))[0]?.message).toContain('more than 400 columns')
    expect(refused(`kind,id\nlamp,${'x'.repeat(20_001)}`)[0]?.message).toContain(
      'a cell has 20001 characters',
    )
    expect(refused('')[0]).toMatchObject({ row: 1, column: 'kind' })
  })
})

describe('readCsv', () => {
  it('reads quotes, empty cells and a last separator by RFC 4180', () => {
    expect(readCsv('a,"b ""c"", d",\r\n"",x\n\n1,"two\r\nlines",')).toEqual({
      ok: true,
      records: [['a', 'b "c", d', null], ['', 'x'], [], ['1', 'two\r\nlines', null]],
    })
  })
})
