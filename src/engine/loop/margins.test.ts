import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { closedLoopPoles, openLoopPoles } from './loop-gain.ts'
import { margins, unstableByNyquist } from './margins.ts'
import { multiply, type Polynomial, type Rational, times } from './polynomial.ts'

/** Factor 1 + s/(2 pi f), in the scaled variable. */
const lag = (f: number): Polynomial => [1, 1000 / f]

describe('margins', () => {
  it('of an integrator with three equal poles are those of the closed form', () => {
    // T = (f0/jf)/(1 + jf/f1)^2: phase -180 at f1, where |T| = f0/(2 f1): gain margin 6.02 dB + 20 log(f1/f0).
    const T: Rational = { num: [1], den: multiply([0, 1000 / 200], lag(1000), lag(1000)) }
    const m = margins(T, 1, 1e6)
    if (!m.ok) throw new Error(m.message)
    expect(m.gainMargin_dB).toBeCloseTo(20 * Math.log10((2 * 1000) / 200), 6)
    const f = m.crossover_Hz
    expect((200 / f) * (1 / (1 + (f / 1000) ** 2))).toBeCloseTo(1, 9)
    expect(m.phaseMargin_deg).toBeCloseTo(90 - (2 * Math.atan(f / 1000) * 180) / Math.PI, 6)
    expect(m.clockwise).toBe(0)
  })

  it('of a second-order loop follow the damping relation', () => {
    // T = wn^2/(s (s + 2 z wn)), z = 0.5: phase margin 51.83 degrees (Ogata, from memory; atan(2z/sqrt(sqrt(1+4z^4)-2z^2))).
    const T: Rational = { num: [1], den: [0, 1, 1] }
    const m = margins(T, 1, 1e6)
    if (!m.ok) throw new Error(m.message)
    expect(m.phaseMargin_deg).toBeCloseTo(51.83, 2)
    expect(m.gainMargin_dB).toBe(Number.POSITIVE_INFINITY)
  })

  it('says so when the gain never crosses one', () => {
    expect(margins({ num: [0.5], den: lag(1000) }, 1, 1e6)).toMatchObject({ ok: false, code: 'no-crossover' })
  })

  it('and poles agree on stability: Nyquist counts the closed-loop poles on the right', () => {
    const f = fc.double({ min: 1, max: 5, noNaN: true }).map((d) => 10 ** d)
    const rational = fc.record({
      gain: fc.double({ min: -1, max: 4, noNaN: true }).map((d) => 10 ** d),
      integrators: fc.integer({ min: 0, max: 1 }),
      poles: fc.array(f, { minLength: 1, maxLength: 4 }),
      zeros: fc.array(f, { maxLength: 2 }),
      rightZero: fc.option(f),
      pair: fc.option(fc.tuple(f, fc.double({ min: 0.1, max: 1.2, noNaN: true }), fc.boolean())),
    })
    let unstable = 0
    let stable = 0
    fc.assert(
      fc.property(rational, (r) => {
        const num = multiply(
          [r.gain],
          ...r.zeros.map(lag),
          ...(r.rightZero === null ? [] : [[1, -1000 / r.rightZero] as Polynomial]),
        )
        const pair: Polynomial[] = []
        if (r.pair !== null) {
          const k = 1000 / r.pair[0]
          pair.push([1, 2 * r.pair[1] * k * (r.pair[2] ? 1 : -1), k * k])
        }
        const den = multiply(...r.poles.map(lag), ...pair, ...(r.integrators ? [[0, 1] as Polynomial] : []))
        if (num.length >= den.length) return
        const T: Rational = { num, den }
        const m = margins(T, 1e-3, 1e9)
        const closed = closedLoopPoles(T)
        const open = openLoopPoles(T)
        if (!m.ok || !closed.ok || !open.ok) return
        // the count is only decided where the curve does not graze -1
        const edge = closed.poles.some((p) => Math.abs(p.damping) < 1e-3)
        if (edge) return
        const right = closed.poles.filter((p) => p.real_rad_per_s > 0).length
        const openRight = open.poles.filter((p) => p.real_rad_per_s > 1e-9).length
        if (right > 0) unstable++
        else stable++
        expect(unstableByNyquist(openRight, m)).toBe(right)
        // margins alone decide for an open loop that is stable and crosses once
        if (openRight === 0 && m.crossings.length === 1 && m.gainReduction_dB === Number.POSITIVE_INFINITY)
          expect(m.phaseMargin_deg > 0).toBe(right === 0)
      }),
      { seed: 11, numRuns: 1500 },
    )
    expect(unstable).toBeGreaterThan(80)
    expect(stable).toBeGreaterThan(80)
  })

  it('scales gain margin with gain', () => {
    const T: Rational = { num: [1], den: multiply([0, 1], lag(1000), lag(3000)) }
    const a = margins(T, 1, 1e6)
    const b = margins({ ...T, num: times(T.num, 0.5) }, 1, 1e6)
    if (!a.ok || !b.ok) throw new Error('no crossover')
    expect(b.gainMargin_dB - a.gainMargin_dB).toBeCloseTo(20 * Math.log10(2), 6)
  })
})
