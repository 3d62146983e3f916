import { describe, expect, test } from 'vitest'
import { clampPower_W, clampResistor_ohm, freeSwing_V, handedShare, settledClamp_V } from './clamp.ts'
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

// Two capacitors fed by a steady current, one of them through the leakage: circuit laws in small steps, with loss enough
// that the ring is gone in the end.
test('a steady current splits between drain and secondary as their capacitances', () => {
  const secondary_F = 30e-12
  const loss_ohm = 400
  let drain_V = 0
  let core_V = 0
  let leakage_A = 1
  for (let k = 0, dt = 1e-11; k < 200_000; k++) {
    const through_A = leakage_A + (core_V - drain_V) / loss_ohm
    core_V += ((1 - through_A) / secondary_F) * dt
    drain_V += (through_A / drain_F) * dt
    leakage_A += ((core_V - drain_V) / leakage_H) * dt
  }
  expect(leakage_A).toBeCloseTo(handedShare(drain_F, secondary_F), 3)
  expect(handedShare(drain_F, 1e-9)).toBe(0.5)
})

// Charge balance in small steps: the bias current rises while the clamp conducts and falls after.
test('the spike charges the bias capacitor until its charge is what the chip takes', () => {
  const h = { leakage_H, drain_F, handed_A: 0.8, over_V: 50 }
  const link = { ratio: 1 / 7, share: 0.8, leakage_H: 0.4e-6 }
  const over_s = (leakage_H * enteringCurrent_A(h)) / h.over_V
  const lifted_V = link.share * h.over_V * link.ratio
  for (const chip_A of [0.5e-3, 2e-3, 10e-3]) {
    const rise_V = spikeCharge_V(h, link, chip_A, rate_Hz)
    const dt = 1e-12
    let current_A = 0
    let charge_C = 0
    for (let t = 0; t < over_s || current_A > 0; t += dt) {
      current_A += (((t < over_s ? lifted_V : 0) - rise_V) / link.leakage_H) * dt
      charge_C += Math.max(0, current_A) * dt
    }
    expect((charge_C * rate_Hz) / chip_A).toBeCloseTo(1, 2)
  }
  expect(spikeCharge_V(h, { ...link, share: 0 }, 1e-3, rate_Hz)).toBe(0)
  expect(spikeCharge_V({ ...h, handed_A: 0.01 }, link, 1e-3, rate_Hz)).toBe(0)
})
