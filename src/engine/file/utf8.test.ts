import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { decodeUtf8 } from './utf8.ts'

const platform = new TextDecoder('utf-8', { fatal: true })

describe('UTF-8', () => {
  it('decodes what the platform encodes (TextEncoder as outside reference)', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 3000 }), (text) => {
        fc.pre(!text.startsWith('\ufeff') && text.codePointAt(0) !== 0 && text.codePointAt(1) !== 0)
        expect(decodeUtf8(new TextEncoder().encode(text))).toEqual({ ok: true, text })
      }),
      { seed: 3, numRuns: 300 },
    )
  })

  it('refuses exactly the bytes that a fatal TextDecoder refuses', () => {
    const byte = fc.constantFrom(
      0x41,
      0x7f,
      0x80,
      0xbf,
      0xc0,
      0xc2,
      0xdf,
      0xe0,
      0xa0,
      0xed,
      0x9f,
      0xef,
      0xf0,
      0x90,
      0xf4,
      0x8f,
      0xf5,
    )
    fc.assert(
      fc.property(fc.array(byte, { minLength: 1, maxLength: 5 }), (list) => {
        const bytes = Uint8Array.from([0x20, ...list])
        let expected: string | null
        try {
          expected = platform.decode(bytes)
        } catch {
          expected = null
        }
        const mine = decodeUtf8(bytes)
        expect(mine.ok ? mine.text : null).toBe(expected)
      }),
      { seed: 4, numRuns: 5000 },
    )
  })

  it('drops a byte order mark', () => {
    expect(decodeUtf8(Uint8Array.from([0xef, 0xbb, 0xbf, 0x7b, 0x7d]))).toEqual({ ok: true, text: '{}' })
  })

  it.each([
    ['UTF-16 little endian', [0xff, 0xfe, 0x7b, 0x00]],
    ['UTF-16 big endian', [0xfe, 0xff, 0x00, 0x7b]],
    ['UTF-16 without mark', [0x7b, 0x00, 0x22, 0x00]],
    ['UTF-32 big endian', [0x00, 0x00, 0x00, 0x7b]],
    ['Latin-1', [0x7b, 0x22, 0xb5, 0x22]],
  ])('refuses %s and asks for UTF-8', (_name, bytes) => {
    const result = decodeUtf8(Uint8Array.from(bytes))
    expect(result).toMatchObject({ ok: false })
    expect(result.ok ? '' : result.message).toContain('UTF-8')
  })

  it('names the byte', () => {
    expect(decodeUtf8(Uint8Array.from([0x7b, 0x22, 0xb5, 0x22]))).toEqual({
      ok: false,
      message: 'byte 3 is not UTF-8 text; save the file as UTF-8 and try again',
    })
  })
})
