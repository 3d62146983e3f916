import FFT from 'fft.js'
import { describe, expect, test } from 'vitest'
import { asHeat, excessLoss, harmonicCount } from './harmonics.ts'
import { trapezoidAverage_A, trapezoidRms_A } from './waveform.ts'

const primary = { start_A: 0.34, end_A: 0.85, duty: 0.37 }
const secondary = { start_A: 6.7, end_A: 2.7, duty: 0.52 }
const zeros = new Array<number>(harmonicCount).fill(0)
const only = (k: number) => zeros.map((_, i) => (i === k - 1 ? 1 : 0))

/** One period sampled, primary from 0 and secondary after it, by a general Fourier transform. */
function spectrum(size: number) {
  const ramp = (t: number, r: typeof primary, from: number) =>
    t >= from && t < from + r.duty ? r.start_A + ((r.end_A - r.start_A) * (t - from)) / r.duty : 0
  const of = (wave: (t: number) => number) => {
    const fft = new FFT(size)
    const out = fft.createComplexArray()
    fft.realTransform(
      out,
      Array.from({ length: size }, (_, i) => wave((i + 0.5) / size)),
    )
    return (k: number) => [out[2 * k]! / size, out[2 * k + 1]! / size] as const
  }
  return {
    p: of((t) => ramp(t, primary, 0)),
    s: of((t) => ramp(t, secondary, primary.duty)),
  }
}

describe('excessLoss', () => {
  const { p, s } = spectrum(65536)
  test.each([1, 2, 3, 7, 16])('harmonic %i against a discrete Fourier transform', (k) => {
    const [pr, pi] = p(k)
    const [sr, si] = s(k)
    const own = excessLoss(primary, secondary, {
      primary_ohm: only(k),
      mutual_ohm: zeros,
      secondary_ohm: zeros,
    })
    // Sampling of the steps: 1e-3 of the largest harmonic.
    expect(own.primary_W).toBeCloseTo(2 * (pr * pr + pi * pi), 4)
    const other = excessLoss(primary, secondary, {
      primary_ohm: zeros,
      mutual_ohm: zeros,
      secondary_ohm: only(k),
    })
    expect(other.secondary_W).toBeCloseTo(2 * (sr * sr + si * si), 2)
    const mutual = excessLoss(primary, secondary, {
      primary_ohm: zeros,
      mutual_ohm: only(k),
      secondary_ohm: zeros,
    })
    expect(mutual.primary_W + mutual.secondary_W).toBeCloseTo(4 * (pr * sr + pi * si), 3)
  })
  test('with one ohm at every harmonic it is nearly the whole ac heating, and never more', () => {
    const ones = zeros.map(() => 1)
    const { primary_W } = excessLoss(primary, secondary, {
      primary_ohm: ones,
      mutual_ohm: zeros,
      secondary_ohm: ones,
    })
    const rms = trapezoidRms_A(primary.start_A, primary.end_A, primary.duty)
    const ac = rms * rms - trapezoidAverage_A(primary.start_A, primary.end_A, primary.duty) ** 2
    expect(primary_W).toBeLessThan(ac)
    expect(primary_W).toBeGreaterThan(0.96 * ac)
  })
})

test('asHeat keeps the sum and cools no winding', () => {
  expect(asHeat({ primary_W: 0.4, secondary_W: -0.1 })).toEqual({ primary_W: 0.4 - 0.1, secondary_W: 0 })
  expect(asHeat({ primary_W: -0.1, secondary_W: 0.4 })).toEqual({ primary_W: 0, secondary_W: 0.4 - 0.1 })
  expect(asHeat({ primary_W: 0.2, secondary_W: 0.4 })).toEqual({ primary_W: 0.2, secondary_W: 0.4 })
})
