import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Optocoupler, Reference, Switcher } from '../parts/part.ts'
import { controlGain, type FeedbackPath, pathPolynomials } from './feedback-path.ts'
import { pathAt } from './path-at.ts'
import { feedbackPathFrom } from './path-from-parts.ts'
import { responseAt } from './polynomial.ts'

const path: FeedbackPath = {
  dividerTop_ohm: 38e3,
  dividerBottom_ohm: 10e3,
  compensationResistor_ohm: 39e3,
  compensationCapacitor_F: 27e-9,
  highFrequencyCapacitor_F: 390e-12,
  ledResistor_ohm: 1500,
  biasResistor_ohm: 1000,
  softFinishCapacitor_F: 22e-6,
  senseTap: 'first',
  ledTap: 'load',
  referenceGain: 1000,
  referenceGainBandwidth_Hz: 1e6,
  transferRatio: 1,
  led_A: 3e-3,
  optocouplerPole_Hz: 20e3,
  controlGain: 175,
  controlPole_Hz: 7e3,
}
const decade = (low: number, high: number) =>
  fc.double({ min: low, max: high, noNaN: true }).map((x) => 10 ** x)

describe('feedback path', () => {
  it('is the same circuit as polynomials and as complex numbers', () => {
    const out = new Float64Array(4)
    fc.assert(
      fc.property(
        fc.record({
          compensationResistor_ohm: decade(2, 6),
          compensationCapacitor_F: decade(-10, -6),
          highFrequencyCapacitor_F: decade(-12, -8),
          softFinishCapacitor_F: fc.constantFrom(0, 1e-6, 22e-6),
          ledTap: fc.constantFrom('first' as const, 'fixed' as const),
        }),
        decade(0, 5),
        (change, f) => {
          const own = { ...path, ...change }
          const p = pathPolynomials(own)
          pathAt(own, f, out)
          const slow = responseAt({ num: p.slow, den: p.den }, f)
          expect(Math.hypot(out[0]!, out[1]!) / slow.magnitude).toBeCloseTo(1, 9)
          expect(Math.cos(Math.atan2(out[1]!, out[0]!) - (slow.phase_deg * Math.PI) / 180)).toBeCloseTo(1, 9)
          const fast = responseAt({ num: p.fast, den: p.den }, f)
          expect(Math.hypot(out[2]!, out[3]!)).toBeCloseTo(fast.magnitude, 9)
        },
      ),
      { seed: 2, numRuns: 200 },
    )
  })

  it('has the gains of the ideal circuit in the middle of the band (Kirchhoff)', () => {
    // between zero (151 Hz) and high-frequency pole (10 kHz) the slow lane is R/R1, the fast lane 1, over the LED resistor
    const out = new Float64Array(4)
    const own = {
      ...path,
      softFinishCapacitor_F: 0,
      biasResistor_ohm: Number.POSITIVE_INFINITY,
      referenceGain: 1e6,
      referenceGainBandwidth_Hz: 1e9,
      optocouplerPole_Hz: 1e9,
      controlPole_Hz: 1e9,
    }
    pathAt(own, 1300, out)
    const led = 175 / (1500 + 0.052 / 3e-3)
    expect(Math.abs(Math.hypot(out[0]!, out[1]!) / ((39 / 38) * led) - 1)).toBeLessThan(0.03)
    expect(Math.hypot(out[2]!, out[3]!) / led).toBeCloseTo(1, 3)
  })

  it('soft-finish capacitor leaves the loop alone where the reference has gain to spare', () => {
    const a = new Float64Array(4)
    const b = new Float64Array(4)
    pathAt({ ...path, referenceGain: 1e6, referenceGainBandwidth_Hz: 1e9 }, 100, a)
    pathAt({ ...path, referenceGain: 1e6, referenceGainBandwidth_Hz: 1e9, softFinishCapacitor_F: 0 }, 100, b)
    expect(a[0]! / b[0]!).toBeCloseTo(1, 3)
  })

  it('takes a chip, an optocoupler and a reference', () => {
    const control = {
      style: 'voltage-mode' as const,
      fullDutyCurrent_A: 2e-3,
      zeroDutyCurrent_A: 6e-3,
      pinVoltage_V: 5.8,
      poleFrequency_Hz: 7e3,
    }
    expect(controlGain(control, 0.7)).toBeCloseTo(175, 9)
    const parts = {
      switcher: {
        control,
        maximumDuty: { minimum: 0.6, typical: 0.7, maximum: 0.75 },
      } as unknown as Switcher,
      optocoupler: { pole_Hz: 20e3, poleLoad_ohm: 1000, testCurrent_A: 1e-3 } as unknown as Optocoupler,
      reference: { gain: 1000, gainBandwidth_Hz: 1e6 } as unknown as Reference,
    }
    const p = feedbackPathFrom(path, parts, {
      transferRatio: 0.8,
      drive: 0.5,
      senseTap: 'load',
      ledTap: 'first',
    })
    expect(p.led_A).toBeCloseTo(4e-3 / 0.8, 12)
    expect(p.optocouplerPole_Hz).toBeCloseTo(100e3, 6)
    expect(p.controlGain).toBeCloseTo(175, 9)
    expect(p.senseTap).toBe('load')
  })
})
