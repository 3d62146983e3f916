import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { multiply, type Polynomial } from './polynomial.ts'
import { roots } from './roots.ts'

describe('roots', () => {
  it('finds Wilkinson-like and widely spread real roots', () => {
    const wanted = [-1e-3, -0.02, -1, -30, -2000, -1e6]
    const p = multiply(...wanted.map((r): Polynomial => [-r, 1]))
    const r = roots(p)
    if (!r.ok) throw new Error(r.message)
    const found = Array.from(r.re).sort((a, b) => b - a)
    wanted.forEach((w, k) => {
      expect(Math.abs(found[k]! / w - 1)).toBeLessThan(1e-9)
    })
  })

  it('finds roots at the origin and complex pairs', () => {
    const r = roots(multiply([0, 0, 1], [25, 6, 1]))
    if (!r.ok) throw new Error(r.message)
    const pairs = Array.from(r.re, (x, k) => [x, r.im[k]!] as const).sort((a, b) => a[1] - b[1])
    expect(pairs[0]![0]).toBeCloseTo(-3, 12)
    expect(pairs[0]![1]).toBeCloseTo(-4, 12)
    expect(pairs[3]![1]).toBeCloseTo(4, 12)
    expect(pairs[1]).toEqual([0, 0])
  })

  it('refuses coefficients that are no numbers', () => {
    expect(roots([1, Number.NaN, 1])).toMatchObject({ ok: false, code: 'bad-value' })
  })

  it('returns roots whose product and sum are those of the coefficients', () => {
    const factor = fc
      .tuple(fc.double({ min: 0.05, max: 1.5, noNaN: true }), fc.double({ min: -3, max: 3, noNaN: true }))
      .map(([damping, decade]): Polynomial => {
        const w = 10 ** decade
        return [w * w, 2 * damping * w, 1]
      })
    fc.assert(
      fc.property(fc.array(factor, { minLength: 1, maxLength: 5 }), (factors) => {
        const p = multiply(...factors)
        const r = roots(p)
        if (!r.ok) return false
        const n = p.length - 1
        let sum = 0
        let log = 0
        for (let k = 0; k < n; k++) {
          sum += r.re[k]!
          log += Math.log(Math.hypot(r.re[k]!, r.im[k]!))
        }
        // 1e-4: a root of multiplicity five is only defined to about the fifth root of the rounding, 1e-3, its sum better
        const wanted = -p[n - 1]! / p[n]!
        return Math.abs(sum / wanted - 1) < 1e-4 && Math.abs(log - Math.log(p[0]! / p[n]!)) < 1e-4
      }),
      { seed: 7, numRuns: 300 },
    )
  })
})
