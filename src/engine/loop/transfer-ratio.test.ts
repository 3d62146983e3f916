import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { incrementalRatio, ledCurrentFor, ratioAt } from './transfer-ratio.ts'

describe('transfer ratio of an optocoupler', () => {
  it('falls below its test current as tables of parts show it', () => {
    // From memory, tables of four-pin parts: 100 to 200 % at 10 mA, least 34 % and typical 70 % at 1 mA. The class
    // spreads by a factor of two either way, so the law need only fall between the two.
    const typical = ratioAt({ ratio: 1.45, test_A: 10e-3 }, 1e-3)
    expect(typical).toBeGreaterThan(0.34)
    expect(typical).toBeLessThan(0.75)
    // Common practice, no source: at 0.1 mA a fifth to a third of the rated ratio is left.
    const little = ratioAt({ ratio: 1, test_A: 10e-3 }, 0.1e-3)
    expect(little).toBeGreaterThan(0.15)
    expect(little).toBeLessThan(0.33)
  })

  it('is the rated one from the test current on, where the current follows by division', () => {
    const rated = { ratio: 1.2, test_A: 5e-3 }
    expect(ratioAt(rated, 20e-3)).toBe(1.2)
    expect(ledCurrentFor(rated, 12e-3)).toBeCloseTo(10e-3, 12)
    expect(incrementalRatio(rated, 20e-3)).toBe(1.2)
  })

  it('gives back the current that it was asked for, and its own slope', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 5, noNaN: true }),
        fc.double({ min: 1e-3, max: 20e-3, noNaN: true }),
        fc.double({ min: 1e-6, max: 50e-3, noNaN: true }),
        (ratio, test_A, transistor_A) => {
          const rated = { ratio, test_A }
          const led_A = ledCurrentFor(rated, transistor_A)
          expect(led_A * ratioAt(rated, led_A)).toBeCloseTo(transistor_A, 12)
          const step = 1e-5 * led_A
          if (Math.abs(led_A / test_A - 1) < 1e-3) return
          const above = (led_A + step) * ratioAt(rated, led_A + step)
          const slope = (above - led_A * ratioAt(rated, led_A)) / step
          expect(slope / incrementalRatio(rated, led_A)).toBeCloseTo(1, 4)
        },
      ),
    )
  })
})
