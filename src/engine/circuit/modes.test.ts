import { describe, expect, it } from 'vitest'
import { findModes } from './modes.ts'
import { eigenvalues } from './spectrum.ts'

/** Largest error of Re(V Lambda W) against A, relative to the grading d_i d_j. */
function defect(a: Float64Array, n: number, grade: number[]): number {
  const m = findModes(a, n)!
  let worst = 0
  for (let i = 0; i < n; i++)
    for (let j = 0; j < n; j++) {
      let value = 0
      for (let k = 0; k < m.singles; k++) {
        const wr = m.wRe[k * n + j]!
        const wi = m.wIm[k * n + j]!
        const re = m.sigma[k]! * wr - m.omega[k]! * wi
        const im = m.sigma[k]! * wi + m.omega[k]! * wr
        value += m.vRe[i * m.count + k]! * re - m.vIm[i * m.count + k]! * im
      }
      for (const { first, size, rates } of m.chains)
        for (let k = 0; k < size * size; k++)
          value +=
            m.vRe[i * m.count + first + ((k / size) | 0)]! * rates[k]! * m.wRe[(first + (k % size)) * n + j]!
      worst = Math.max(worst, Math.abs(value - a[i * n + j]!) / (grade[i]! * grade[j]!))
    }
  return worst
}

describe('modes of a small matrix', () => {
  let seed = 1
  const random = () => {
    seed = (seed * 16807) % 2147483647
    return seed / 2147483647 - 0.5
  }

  it('rebuilds random matrices', () => {
    for (let trial = 0; trial < 200; trial++) {
      const n = 1 + (trial % 12)
      const a = Float64Array.from({ length: n * n }, random)
      expect(defect(a, n, new Array(n).fill(1))).toBeLessThan(1e-10)
    }
  })

  it('keeps the slow modes of graded matrices beside rates eight decades faster', () => {
    for (let trial = 0; trial < 200; trial++) {
      const n = 2 + (trial % 9)
      const grade = Array.from({ length: n }, (_, i) => 10 ** (8 - 1.2 * i))
      const a = Float64Array.from(
        { length: n * n },
        (_, at) => random() * grade[(at / n) | 0]! * grade[at % n]!,
      )
      expect(defect(a, n, grade)).toBeLessThan(1e-10)
    }
  })

  it('finds the roots of (s + 1)(s^2 + 2 s + 5): -1 and -1 +- 2j', () => {
    const roots = eigenvalues(Float64Array.of(-3, -7, -5, 1, 0, 0, 0, 1, 0), 3)!
    expect(roots[0]!.re).toBeCloseTo(-1, 12)
    expect(Math.abs(roots[0]!.im)).toBeCloseTo(2, 12)
    expect(roots[2]!.re).toBeCloseTo(-1, 12)
    expect(roots[2]!.im).toBe(0)
  })
})
