import { describe, expect, test } from 'vitest'
import { clampPower_W, clampResistor_ohm, freeSwing_V, settledClamp_V } from './clamp.ts'
import { enteringCurrent_A, handoverRing_A, spikeCharge_V } from './handover.ts'

const leakage_H = 15e-6
const drain_F = 70e-12
const reflected_V = 100
const rate_Hz = 1e5

/** Circuit laws in small steps: the leakage against a drain that rises from the reflected voltage, and a clamp above it. */
function integrated(handed_A: number, clamp_V: number): { entering_A: number; energy_J: number } {
  const dt = 1e-12
  let i = handed_A
  let v = reflected_V
  while (v < clamp_V && i > 0) {
    i -= ((v - reflected_V) / leakage_H) * dt
    v += (i / drain_F) * dt
  }
  const entering_A = Math.max(0, i)
  let energy_J = 0
  for (; i > 0; i -= ((clamp_V - reflected_V) / leakage_H) * dt) energy_J += clamp_V * i * dt
  return { entering_A, energy_J }
}

describe('the leakage against circuit laws in small steps', () => {
  test.each([
    [0.8, 150],
    [0.5, 180],
    [0.3, 125],
  ])('%f A into a clamp at %f V', (handed_A, clamp_V) => {
    const { entering_A, energy_J } = integrated(handed_A, clamp_V)
    const found_A = enteringCurrent_A({ leakage_H, drain_F, handed_A, over_V: clamp_V - reflected_V })
    expect(found_A / entering_A).toBeCloseTo(1, 3)
    const alone_W = 0.5 * leakage_H * handed_A ** 2 * rate_Hz
    const swing_S = drain_F * rate_Hz
    const power_W = clampPower_W(alone_W, clamp_V, reflected_V, swing_S)
    expect(power_W / (energy_J * rate_Hz)).toBeCloseTo(1, 2)
    // and back: the resistor that burns it settles there
    const resistor_ohm = clampResistor_ohm(alone_W, clamp_V, reflected_V, swing_S)
    expect(clamp_V ** 2 / resistor_ohm / power_W).toBeCloseTo(1, 9)
    expect(settledClamp_V(alone_W, resistor_ohm, reflected_V, swing_S)).toBeCloseTo(clamp_V, 9)
  })

  test('a current too small to reach the clamp leaves it without power', () => {
    const handed_A = 0.1
    const free_V = freeSwing_V(handed_A, leakage_H, drain_F)
    expect(integrated(handed_A, reflected_V + 1.01 * free_V).entering_A).toBe(0)
    expect(integrated(handed_A, reflected_V + 0.99 * free_V).entering_A).toBeGreaterThan(0)
    expect(clampPower_W(0.5 * leakage_H * handed_A ** 2 * rate_Hz, 190, reflected_V, drain_F * rate_Hz)).toBe(
      0,
    )
  })

  test('the ring after it swings back through the energy of the drain, less a quarter period of losses', () => {
    const h = { leakage_H, drain_F, handed_A: 1, over_V: 60 }
    const lossless_A = handoverRing_A(h, 1e9)
    expect(0.5 * leakage_H * lossless_A ** 2).toBeCloseTo(0.5 * drain_F * h.over_V ** 2, 15)
    expect(handoverRing_A(h, 5) / lossless_A).toBeCloseTo(Math.exp(-Math.PI / 20), 6)
  })
})

// Charge balance in small steps: the drain rises past the level of the bias capacitor, the clamp holds it, and it rings
// down. The rise above that level is taken as a triangle, and the start of it as where the current starts: 5 % of charge.
test.each([
  [0.8, 50],
  [0.5, 60],
  [1.5, 60],
])(
  '%f A into a clamp %f V up charge the bias capacitor until its charge is what the chip takes',
  (handed_A, over_V) => {
    const h = { leakage_H, drain_F, handed_A, over_V }
    const link = { ratio: 1 / 7, share: 0.8, leakage_H: 0.4e-6 }
    // both parts of the leakage side by side feed the bias winding
    const source_H = link.leakage_H + (0.8 * 0.2 * leakage_H) / 49
    for (const chip_A of [0.5e-3, 2e-3, 10e-3]) {
      const level_V = spikeCharge_V(h, link, chip_A, rate_Hz)
      const dt = 1e-12
      let leakage_A = handed_A
      let drain_V = 0
      let bias_A = 0
      let charge_C = 0
      let held = false
      while (!held || leakage_A > 0 || bias_A > 0) {
        held ||= drain_V >= over_V
        leakage_A -= (drain_V / leakage_H) * dt
        if (!(held && leakage_A > 0)) drain_V += (leakage_A / drain_F) * dt
        bias_A = Math.max(0, bias_A + ((link.share * link.ratio * drain_V - level_V) / source_H) * dt)
        charge_C += bias_A * dt
      }
      expect(Math.abs((charge_C * rate_Hz) / chip_A - 1), `${chip_A} A`).toBeLessThan(0.05)
    }
  },
)

test('a spike that the bias winding does not see, or that stays below the clamp, charges nothing', () => {
  const h = { leakage_H, drain_F, handed_A: 0.8, over_V: 50 }
  const link = { ratio: 1 / 7, share: 0.8, leakage_H: 0.4e-6 }
  expect(spikeCharge_V(h, { ...link, share: 0 }, 1e-3, rate_Hz)).toBe(0)
  expect(spikeCharge_V({ ...h, handed_A: 0.01 }, link, 1e-3, rate_Hz)).toBe(0)
})
