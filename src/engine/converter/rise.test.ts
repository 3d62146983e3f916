import { describe, expect, test } from 'vitest'
import { handedShare, type RisePath, riseResponse } from './rise.ts'

const bare: RisePath = { leakage_H: 6e-6, drain_F: 90e-12, junction_F: 12e-12, snubber: null }
const snubbed: RisePath = { ...bare, snubber: { resistor_ohm: 1100, capacitor_F: 36e-12 } }
const heavy: RisePath = {
  leakage_H: 3e-6,
  drain_F: 160e-12,
  junction_F: 53e-12,
  snubber: { resistor_ohm: 290, capacitor_F: 170e-12 },
}

/** Circuit laws in small steps: what the leakage has for the clamp when the rectifier's side has risen by a voltage. */
function integrated(
  { leakage_H, drain_F, junction_F, snubber }: RisePath,
  swing_V: number,
  peak_A: number,
): number {
  const dt = 2e-13
  let leakage_A = peak_A
  let drain_V = 0
  let rectifier_V = 0
  let capacitor_V = 0
  while (rectifier_V < swing_V) {
    const snubber_A = snubber ? (rectifier_V - capacitor_V) / snubber.resistor_ohm : 0
    drain_V += (leakage_A / drain_F) * dt
    rectifier_V += ((peak_A - leakage_A - snubber_A) / junction_F) * dt
    capacitor_V += snubber ? (snubber_A / snubber.capacitor_F) * dt : 0
    leakage_A += ((rectifier_V - drain_V) / leakage_H) * dt
  }
  const over_V = drain_V - rectifier_V
  return Math.sqrt(leakage_A ** 2 + (drain_F / leakage_H) * over_V ** 2) / peak_A
}

describe('the rise of drain and rectifier against circuit laws in small steps', () => {
  const cases = [
    ['no snubber', bare],
    ['a usual snubber', snubbed],
    ['a heavy snubber over few turns', heavy],
  ] as const
  // Phase of the ring 1 %, straight lines between steps of half a radian: 1.5 % of the peak current.
  test.each(cases)('%s, from a current limit to a light load', (_name, path) => {
    const response = riseResponse(path)
    for (const peak_A of [4, 2, 1.2, 0.7])
      expect(Math.abs(handedShare(response, 300, peak_A) - integrated(path, 300, peak_A))).toBeLessThan(0.015)
  })

  test('all of it at once, the share of the capacitances once the ring has died', () => {
    const response = riseResponse(snubbed)
    expect(handedShare(response, 300, 1e6)).toBeCloseTo(1, 3)
    expect(handedShare(response, 300, 1e-3)).toBeCloseTo(90 / (90 + 12 + 36), 3)
  })
})
