import { describe, expect, it } from 'vitest'
import type { FlybackStage } from './operating-point.ts'
import { powerStage } from './power-stage.ts'
import {
  dampingFromCycles,
  marginFromRinging,
  phaseMarginFromDamping,
  ringingAdvice,
} from './ringing-rule.ts'
import { outputRipple } from './ripple.ts'

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
  filter: { capacitance_F: 470e-6, capacitorResistance_ohm: 0, second: null },
  load: { kind: 'resistor' },
}

describe('output ripple', () => {
  it('of an ideal capacitor in discontinuous mode is the charge above the load current over C', () => {
    const small = powerStage(stage, { style: 'voltage-mode' })
    if (!small.ok) throw new Error(small.message)
    const top = 10 * small.point.primary_Apeak
    const fall = small.point.offDuty * 1e-5
    const r = outputRipple(stage, small)
    // triangle above Io: (top - Io)^2 fall/(2 top)
    expect(r.first_Vpp).toBeCloseTo(((top - 2.5) ** 2 * fall) / (2 * top) / 470e-6, 5)
    // rms of the triangle less its mean: top^2 D2/3 - Io^2; the mean of the lossy triangle is Io within 0.5 %
    expect(r.capacitor_Arms / Math.sqrt((top ** 2 * small.point.offDuty) / 3 - 2.5 ** 2)).toBeCloseTo(1, 2)
  })

  it('with a large capacitor resistance is its step', () => {
    const s = { ...stage, filter: { ...stage.filter, capacitance_F: 1, capacitorResistance_ohm: 0.03 } }
    const small = powerStage(s, { style: 'voltage-mode' })
    if (!small.ok) throw new Error(small.message)
    const r = outputRipple(s, small)
    expect(r.first_Vpp / (0.3 * small.point.primary_Apeak)).toBeCloseTo(1, 3)
  })

  it('is divided by a second stage as its fundamental is', () => {
    const second = {
      inductance_H: 3.3e-6,
      resistance_ohm: 0.01,
      capacitance_F: 220e-6,
      capacitorResistance_ohm: 0.05,
    }
    const s = { ...stage, filter: { ...stage.filter, capacitorResistance_ohm: 0.03, second } }
    const small = powerStage(s, { style: 'voltage-mode' })
    if (!small.ok) throw new Error(small.message)
    const r = outputRipple(s, small)
    // sawtooth into L then the second capacitor's resistance: between its fundamental alone and the whole step
    const divide = 0.05 / (2 * Math.PI * 1e5 * 3.3e-6)
    expect(r.load_Vpp).toBeGreaterThan(0.4 * divide * r.first_Vpp)
    expect(r.load_Vpp).toBeLessThan(divide * r.first_Vpp)
  })
})

describe('ringing rule', () => {
  it('has the textbook phase margin at two dampings (Ogata, from memory)', () => {
    expect(phaseMarginFromDamping(0.5)).toBeCloseTo(51.83, 2)
    expect(phaseMarginFromDamping(0.2)).toBeCloseTo(22.6, 1)
  })

  it('turns counted cycles into a band that falls with their number', () => {
    expect(dampingFromCycles(3)).toBeCloseTo(0.157, 3)
    const few = marginFromRinging(2)
    const many = marginFromRinging(6)
    expect(many.high_deg).toBeLessThan(few.high_deg)
    expect(many.low_deg).toBeLessThan(many.high_deg)
    expect(ringingAdvice(many)).toHaveLength(2)
    expect(ringingAdvice({ low_deg: 50, high_deg: 80 })).toHaveLength(1)
  })
})
