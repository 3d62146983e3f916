import { describe, expect, it } from 'vitest'
import { DisturbanceResponse } from './disturbance.ts'
import type { FeedbackPath } from './feedback-path.ts'
import { loopGain } from './loop-gain.ts'
import type { FlybackStage } from './operating-point.ts'
import { responseAt } from './polynomial.ts'
import { powerStage } from './power-stage.ts'
import { stepResponse } from './step-response.ts'

const filter = { capacitance_F: 470e-6, capacitorResistance_ohm: 0.03, second: null }
const stage: FlybackStage = {
  bulk_V: 300,
  turnsRatio: 10,
  primaryInductance_H: 800e-6,
  frequency_Hz: 100e3,
  output_V: 12,
  output_A: 2.5,
  rectifierDrop_V: 0.5,
  primaryResistance_ohm: 1.4,
  secondaryResistance_ohm: 0.02,
  filter,
  load: { kind: 'resistor' },
}
const path: FeedbackPath = {
  dividerTop_ohm: 38e3,
  dividerBottom_ohm: 10e3,
  compensationResistor_ohm: 39e3,
  compensationCapacitor_F: 27e-9,
  highFrequencyCapacitor_F: 390e-12,
  ledResistor_ohm: 1500,
  biasResistor_ohm: Number.POSITIVE_INFINITY,
  softFinishCapacitor_F: 0,
  senseTap: 'first',
  ledTap: 'first',
  referenceGain: 1000,
  referenceGainBandwidth_Hz: 1e6,
  transferRatio: 1,
  led_A: 3e-3,
  optocouplerPole_Hz: 20e3,
  controlGain: 175,
  controlPole_Hz: 7e3,
}
const modulators = [{ style: 'voltage-mode' }, { style: 'peak-current', slope_A_per_s: 20e3 }] as const

describe.each(modulators)('disturbance, $style', (modulator) => {
  const continuous = {
    ...stage,
    output_A: 8,
    filter: {
      ...filter,
      second: {
        inductance_H: 2e-6,
        resistance_ohm: 5e-3,
        capacitance_F: 2e-4,
        capacitorResistance_ohm: 0.04,
      },
    },
  }
  for (const [name, s] of [
    ['discontinuous', stage],
    ['continuous with a second stage', continuous],
  ] as const)
    it(`closed over open loop is 1/(1 + T), ${name}`, () => {
      const small = powerStage(s, modulator)
      if (!small.ok) throw new Error(small.message)
      const own = { ...path, ledTap: 'load', senseTap: 'load' } as const
      const T = loopGain(small, own)
      const a = new Float64Array(2)
      const b = new Float64Array(2)
      for (const kind of ['load-current', 'bulk-voltage'] as const)
        for (const f of [10, 300, 2000, 20000]) {
          const w = 2 * Math.PI * f
          new DisturbanceResponse(small, s.filter, null, kind).at(0, w, a)
          new DisturbanceResponse(small, s.filter, own, kind).at(0, w, b)
          const t = responseAt(T, f)
          const re = 1 + t.magnitude * Math.cos((t.phase_deg * Math.PI) / 180)
          const im = t.magnitude * Math.sin((t.phase_deg * Math.PI) / 180)
          expect(b[0]! * re - b[1]! * im).toBeCloseTo(a[0]!, 9)
          expect(b[0]! * im + b[1]! * re).toBeCloseTo(a[1]!, 9)
        }
    })
})

describe('step response', () => {
  const small = powerStage(stage, { style: 'voltage-mode' })
  if (!small.ok) throw new Error(small.message)

  it('starts at minus the capacitor resistance and ends at the impedance at DC', () => {
    const r = stepResponse(small, filter, path, 'load-current', 1, 40e-3, 4001)
    if (!r.ok) throw new Error(r.message)
    const instant = 1 / (1 / 0.03 + 2.5 / 12)
    expect(r.deviation_V[0]).toBeCloseTo(-instant, 5)
    const z = new Float64Array(2)
    new DisturbanceResponse(small, filter, path, 'load-current').at(0, 1e-6, z)
    expect(r.final_V).toBeCloseTo(z[0]!, 5)
    expect(r.peak_V).toBeLessThan(-instant)
  })

  it('is what a sine sweep of the same impedance adds up to', () => {
    // Fourier series of a square wave of load current, period 40 ms, against the pole sum at 0.6 ms.
    const r = stepResponse(small, filter, path, 'load-current', 1, 20e-3, 2001)
    if (!r.ok) throw new Error(r.message)
    const z = new Float64Array(2)
    const response = new DisturbanceResponse(small, filter, path, 'load-current')
    const at = (t: number): number => {
      let sum = 0
      for (let n = 1; n < 8001; n += 2) {
        const w = (2 * Math.PI * n) / 40e-3
        response.at(0, w, z)
        sum += (2 / (Math.PI * n)) * (z[0]! * Math.sin(w * t) + z[1]! * Math.cos(w * t))
      }
      response.at(0, 1e-9, z)
      return sum + 0.5 * z[0]!
    }
    for (const k of [60, 300, 1000])
      expect(Math.abs(at((k * 20e-3) / 2000) - r.deviation_V[k]!)).toBeLessThan(2e-4)
  })

  it('refuses a loop that oscillates', () => {
    const hot = { ...path, transferRatio: 90 }
    expect(stepResponse(small, filter, hot, 'load-current', 1, 5e-3)).toMatchObject({
      ok: false,
      code: 'unstable',
    })
  })
})
