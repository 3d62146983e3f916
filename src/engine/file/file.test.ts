import { describe, expect, it } from 'vitest'
import { sampleDrawer, sampleSupply } from '../../../test/support/sample.ts'
import type { Supply } from '../supply/supply.ts'
import { drawerText, largestFile_B, readDrawer, readSupply, supplyText } from './file.ts'
import { problemSentence } from './problem.ts'

const sentences = (text: string | Uint8Array): string[] => {
  const result = readSupply(text)
  if (result.ok) throw new Error('was read')
  return result.problems.map(problemSentence)
}

/** The sample as free JSON, changed by hand. */
const changed = (change: (supply: any) => void): string => {
  const copy: unknown = JSON.parse(supplyText(sampleSupply()))
  change(copy)
  return JSON.stringify(copy)
}

const upsideDown = (value: unknown): unknown => {
  if (Array.isArray(value)) return value.map(upsideDown)
  if (typeof value !== 'object' || value === null) return value
  return Object.fromEntries(
    Object.entries(value)
      .reverse()
      .map(([key, inner]) => [key, upsideDown(inner)]),
  )
}

describe('supply files', () => {
  it('reads back what it writes', () => {
    const supply = sampleSupply()
    expect(readSupply(supplyText(supply))).toEqual({ ok: true, value: supply, migratedFrom: null })
  })

  it('writes equal text for equal supplies whatever the order of fields, with two spaces and a last line break', () => {
    const supply = sampleSupply()
    const text = supplyText(supply)
    expect(supplyText(upsideDown(supply) as Supply)).toBe(text)
    expect(text.startsWith('{\n  "format": "gapwright-supply",\n  "version": 1,\n  "id": "sample",\n')).toBe(
      true,
    )
    expect(text.endsWith('}\n')).toBe(true)
  })

  it('tolerates a byte order mark, as bytes and as text', () => {
    const text = supplyText(sampleSupply())
    expect(readSupply(`\ufeff${text}`).ok).toBe(true)
    expect(readSupply(new TextEncoder().encode(`\ufeff${text}`)).ok).toBe(true)
  })

  it.each<[string, (supply: any) => void]>([
    [
      'build.clamp.voltage_V: 900 is over 600',
      (s) => {
        s.build.clamp.voltage_V = 900
      },
    ],
    [
      'build.bulkCount: 0 is under 1',
      (s) => {
        s.build.bulkCount = 0
      },
    ],
    [
      'build.bulkCount: 1.5 stands where a whole number is wanted',
      (s) => {
        s.build.bulkCount = 1.5
      },
    ],
    [
      'need.ripple_Vpp: 0 must be more than 0',
      (s) => {
        s.need.ripple_Vpp = 0
      },
    ],
    [
      'need.output_V: "12" stands where a number is wanted',
      (s) => {
        s.need.output_V = '12'
      },
    ],
    [
      'need.cooling: "water" is not one of open, case-vented, case-closed, fan',
      (s) => {
        s.need.cooling = 'water'
      },
    ],
    [
      'need.pollutionDegree: 4 is not one of 1, 2, 3',
      (s) => {
        s.need.pollutionDegree = 4
      },
    ],
    [
      'need.source.kind: "steam" is not one of mains, dc',
      (s) => {
        s.need.source.kind = 'steam'
      },
    ],
    [
      'need.ambient_C: is missing',
      (s) => {
        delete s.need.ambient_C
      },
    ],
    [
      'need.colour: is not a field of this version of the file',
      (s) => {
        s.need.colour = 'red'
      },
    ],
    [
      'parts[0].kind: "tube" is not one of',
      (s) => {
        s.parts[0].kind = 'tube'
      },
    ],
    [
      'parts: an object stands where a list is wanted',
      (s) => {
        s.parts = {}
      },
    ],
    [
      'name: a text of 0 characters is under 1',
      (s) => {
        s.name = ''
      },
    ],
    [
      'name: a text of 121 characters is over 120',
      (s) => {
        s.name = 'x'.repeat(121)
      },
    ],
    [
      'id: "Two Words": an id is 1 to 64 of a-z',
      (s) => {
        s.id = 'Two Words'
      },
    ],
    [
      'build.places.core: no part with id nothing is in this supply',
      (s) => {
        s.build.places.core = 'nothing'
      },
    ],
    [
      'build.places.core: core needs a core, and opto is an optocoupler',
      (s) => {
        s.build.places.core = 'opto'
      },
    ],
    [
      'need.source: input must rise from minimum to nominal to maximum, not 300, 230, 265 V',
      (s) => {
        s.need.source.minimum_Vrms = 300
      },
    ],
    [
      'format: "gapwright-drawer" is not gapwright-supply',
      (s) => {
        s.format = 'gapwright-drawer'
      },
    ],
    [
      'version: 2 was written by a newer Gapwright; this one reads up to 1',
      (s) => {
        s.version = 2
      },
    ],
    [
      'version: "1" is not a version number',
      (s) => {
        s.version = '1'
      },
    ],
    [
      'version: is missing',
      (s) => {
        delete s.version
      },
    ],
  ])('says %s', (sentence, change) => {
    expect(sentences(changed(change)).some((s) => s.startsWith(sentence))).toBe(true)
  })

  it('carries the value that it found', () => {
    const result = readSupply(
      changed((s) => {
        s.build.clamp.voltage_V = 900
      }),
    )
    expect(result).toEqual({
      ok: false,
      problems: [{ path: 'build.clamp.voltage_V', message: '900 is over 600', value: '900' }],
    })
  })

  it('lists every problem, not the first alone', () => {
    const found = sentences(
      changed((s) => {
        s.build.bulkCount = 0
        s.need.output_A = 1e9
        s.extra = 1
      }),
    )
    expect(found.length).toBeGreaterThanOrEqual(3)
  })

  it('ends a very long list of problems with a count', () => {
    const found = sentences(
      changed((s) => {
        for (let i = 0; i < 300; i++) s[`extra${i}`] = 1
      }),
    )
    expect(found.length).toBe(100)
    expect(found[99]).toBe('and 201 more problems')
  })

  it('says where a file is cut short', () => {
    const text = supplyText(sampleSupply())
    expect(sentences(text.slice(0, 300))[0]).toMatch(/^line \d+, column \d+: .*(text ends|cut short)/)
  })

  it.each([
    ['', 'the file is empty'],
    [' \n', 'the file is empty'],
    ['null', 'this is not a Gapwright file: null stands where an object is wanted'],
    ['[]', 'this is not a Gapwright file: a list of 0 stands where an object is wanted'],
  ])('refuses %j', (text, sentence) => {
    expect(sentences(text)).toEqual([sentence])
  })

  it('refuses a file over its size without reading it', () => {
    expect(sentences(' '.repeat(largestFile_B + 1))).toEqual(['the file is over 8 MiB'])
  })

  it('refuses to write a supply that is not valid', () => {
    expect(() => supplyText({ ...sampleSupply(), id: '../up' })).toThrow(/an id is/)
  })
})

describe('drawer files', () => {
  it('reads back what it writes', () => {
    const drawer = sampleDrawer()
    expect(readDrawer(drawerText(drawer))).toEqual({ ok: true, value: drawer, migratedFrom: null })
  })

  it('says which id is used twice', () => {
    const drawer = sampleDrawer()
    drawer.entries.push(drawer.entries[0]!)
    const result = readDrawer(JSON.stringify(drawer))
    expect(result.ok ? [] : result.problems.map(problemSentence)).toEqual([
      `entries[${drawer.entries.length - 1}].part.id: id ${drawer.entries[0]!.part.id} is used twice`,
    ])
  })
})
