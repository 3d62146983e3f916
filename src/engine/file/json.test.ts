import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { deepest, readJson } from './json.ts'

const refusal = (text: string) => {
  const result = readJson(text)
  if (result.ok) throw new Error(`read as ${JSON.stringify(result.value)}`)
  return `${result.line}:${result.column} ${result.message}`
}

describe('reading JSON', () => {
  it('reads what the platform writes, and reads it equal (RFC 8259; JSON.parse as outside reference)', () => {
    fc.assert(
      fc.property(
        fc
          .jsonValue({ maxDepth: 6 })
          .filter((v) => !/"(__proto__|constructor|prototype)"/.test(JSON.stringify(v))),
        fc.constantFrom(0, 1, 2),
        (value, indent) => {
          const text = JSON.stringify(value, null, indent)
          expect(readJson(text)).toEqual({ ok: true, value: JSON.parse(text) })
        },
      ),
      { seed: 1, numRuns: 500 },
    )
  })

  it('agrees with JSON.parse on what is JSON, for damaged texts', () => {
    const base = '{"a":[1,-2.5e-3,true,false,null,"x\\u00e9\\n"],"b":{"c":"d"},"e":0.10}'
    fc.assert(
      fc.property(
        fc.nat(base.length - 1),
        fc.constantFrom(
          '',
          '"',
          '{',
          '}',
          '[',
          ']',
          ',',
          ':',
          '0',
          '-',
          '.',
          'e',
          '\\',
          'n',
          ' ',
          '\u0007',
          '\n',
        ),
        fc.boolean(),
        (place, put, replace) => {
          const text = base.slice(0, place) + put + base.slice(replace ? place + 1 : place)
          let platform = true
          try {
            JSON.parse(text)
          } catch {
            platform = false
          }
          const mine = readJson(text)
          const twice = !mine.ok && mine.message.includes('there twice')
          expect(mine.ok || twice).toBe(platform)
        },
      ),
      { seed: 2, numRuns: 3000 },
    )
  })

  it('tells line and column', () => {
    expect(refusal('{\n  "a": 1,\n  "b": }')).toBe('3:8 a value was expected where "}" stands')
    expect(refusal('{"a": 1')).toBe('1:8 , or } was expected where the text ends')
    expect(refusal('{"a": "cut')).toBe('1:11 the text ends inside a string: the file is cut short')
    expect(refusal('{"a" 1}')).toBe('1:6 : was expected where "1" stands')
    expect(refusal('[1] 2')).toBe('1:5 nothing was expected after the end, and "2" stands there')
    expect(refusal('{a: 1}')).toBe('1:2 a field name in double quotes was expected where "a" stands')
    expect(refusal('"\\q"')).toBe('1:2 \\q is no escape of JSON')
    expect(refusal('[1e999]')).toBe('1:2 the number 1e999 is too large')
    expect(refusal('[NaN]')).toBe('1:2 a value was expected where "N" stands')
    expect(refusal('')).toBe('1:1 a value was expected where the text ends')
  })

  it.each(['__proto__', 'constructor', 'prototype'])('refuses the key %s at any depth', (key) => {
    expect(refusal(`{"a": {"${key}": {"polluted": 1}}}`)).toContain(`the field name ${key} is not allowed`)
    expect(({} as Record<string, unknown>).polluted).toBeUndefined()
  })

  it('refuses prototype keys that are written with escapes', () => {
    expect(refusal('{"__pr\\u006fto__": {}}')).toContain('the field name __proto__ is not allowed')
  })

  it('refuses a field that is there twice', () => {
    expect(refusal('{"a": 1,\n "a": 2}')).toBe('2:2 the field "a" is there twice')
  })

  it('reads to the deepest level and no deeper', () => {
    const nested = (depth: number) => '['.repeat(depth) + ']'.repeat(depth)
    expect(readJson(nested(deepest)).ok).toBe(true)
    expect(refusal(nested(deepest + 1))).toBe(`1:${deepest + 1} nested deeper than ${deepest} levels`)
    expect(refusal('['.repeat(1_000_000))).toContain('nested deeper')
  })
})
