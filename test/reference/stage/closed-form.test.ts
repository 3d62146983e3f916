// Second method: the solved circuit of the same stage, which simulator.test.ts holds to a general-purpose simulator.
import { describe, expect, test } from 'vitest'
import { demoSupplies } from '../../../src/engine/demo/index.ts'
import type { Supply } from '../../../src/engine/supply/supply.ts'
import { r1 } from '../r1/r1.ts'
import { closedOverSolved } from './closed-over-solved.ts'

const [charger, lights, sockets] = demoSupplies() as [Supply, Supply, Supply]

const supplies = [
  ['R1, Schottky with a snubber', r1()],
  ['float charger, Schottky with a snubber', charger],
  ['work lights, avalanche clamp', lights],
  ['phone sockets, no snubber', sockets],
] as const
const corners = [
  'minimum-valley-100-typical-warm',
  'maximum-crest-100-typical-warm',
  'maximum-crest-100-flux-warm',
] as const
const cases = supplies.flatMap(([name, supply]) => corners.map((corner) => [name, corner, supply] as const))

describe.each(cases)('closed form against the solved circuit: %s, %s', (_name, corner, supply) => {
  const ratio = closedOverSolved(supply, corner)

  // Goes with the peak current, in which the closed form has the edges of the switch that the circuit's makes in no time:
  // 6 % of the voltage above the bulk, and of the drain with the overshoot of a real diode which the circuit's has not.
  test('clamp and drain', () => {
    expect(Math.abs(ratio('clamp_V') - 1)).toBeLessThan(0.06)
    expect(Math.abs(ratio('drainPeak_V') - 1)).toBeLessThan(0.06)
  })
  // Goes with the square of that current, and with the breakdown of an avalanche device, typical here and the greatest in
  // the circuit of the flux corner: 25 %.
  test('power of the clamp', () => expect(Math.abs(ratio('clamp_W') - 1)).toBeLessThan(0.25))
  // The spike goes with the clamp; later crests of the ring and the resistance of the winding are left out: 6 %.
  test('bias voltage', () => expect(Math.abs(ratio('bias_V') - 1)).toBeLessThan(0.06))
  // The ring of leakage and drain capacitance on top of the ramp, at a mean loss: 10 %.
  test('secondary peak', () => expect(Math.abs(ratio('secondaryPeak_A') - 1)).toBeLessThan(0.1))
  // Peaks of both rings and of the ramp fall on one instant in the closed form: an upper bound, within a third.
  test('ripple of the first capacitor', () => {
    expect(ratio('firstRipple_Vpp')).toBeGreaterThan(0.97)
    expect(ratio('firstRipple_Vpp')).toBeLessThan(1.33)
  })
  // Losses and the drain's charge shift it a little.
  test('primary peak and secondary rms', () => {
    expect(Math.abs(ratio('primaryPeak_A') - 1)).toBeLessThan(0.06)
    expect(Math.abs(ratio('secondary_Arms') - 1)).toBeLessThan(0.05)
  })
})
