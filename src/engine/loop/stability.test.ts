import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { FeedbackPath } from './feedback-path.ts'
import { closedLoopPoles, loopGain, openLoopPoles } from './loop-gain.ts'
import { margins, unstableByNyquist } from './margins.ts'
import type { Load } from './output-filter.ts'
import { powerStage } from './power-stage.ts'
import { stepResponse } from './step-response.ts'

const decade = (low: number, high: number) =>
  fc.double({ min: low, max: high, noNaN: true }).map((x) => 10 ** x)
const supply = fc.record({
  bulk_V: fc.double({ min: 90, max: 375, noNaN: true }),
  primaryInductance_H: decade(-3.5, -2.6),
  output_A: decade(-1, 0.7),
  capacitance_F: decade(-4, -2.5),
  capacitorResistance_ohm: decade(-2.5, -1),
  choke_H: fc.option(decade(-6, -5)),
  load: fc.constantFrom<Load>(
    { kind: 'resistor' },
    { kind: 'constant-current' },
    { kind: 'battery', resistance_ohm: 0.2 },
  ),
  slope_A_per_s: fc.option(fc.double({ min: 0, max: 2e5, noNaN: true })),
  compensationResistor_ohm: decade(2.5, 5.5),
  compensationCapacitor_F: decade(-9, -6.5),
  ledResistor_ohm: decade(2.3, 3.5),
  transferRatio: decade(-0.7, 0.7),
  senseTap: fc.constantFrom('first' as const, 'load' as const),
  ledTap: fc.constantFrom('first' as const, 'load' as const, 'fixed' as const),
})

describe('stability of whole supplies', () => {
  it('poles, Nyquist count and time response tell the same story', () => {
    let stable = 0
    let unstable = 0
    fc.assert(
      fc.property(supply, (s) => {
        const second =
          s.choke_H === null
            ? null
            : {
                inductance_H: s.choke_H,
                resistance_ohm: 0.02,
                capacitance_F: 220e-6,
                capacitorResistance_ohm: 0.05,
              }
        const filter = {
          capacitance_F: s.capacitance_F,
          capacitorResistance_ohm: s.capacitorResistance_ohm,
          second,
        }
        const small = powerStage(
          {
            bulk_V: s.bulk_V,
            turnsRatio: 10,
            primaryInductance_H: s.primaryInductance_H,
            frequency_Hz: 100e3,
            output_V: 12,
            output_A: s.output_A,
            rectifierDrop_V: 0.5,
            primaryResistance_ohm: 1.5,
            secondaryResistance_ohm: 0.02,
            filter,
            load: s.load,
          },
          s.slope_A_per_s === null
            ? { style: 'voltage-mode' }
            : { style: 'peak-current', slope_A_per_s: s.slope_A_per_s },
        )
        if (!small.ok) return
        const path: FeedbackPath = {
          dividerTop_ohm: 38e3,
          dividerBottom_ohm: 10e3,
          compensationResistor_ohm: s.compensationResistor_ohm,
          compensationCapacitor_F: s.compensationCapacitor_F,
          highFrequencyCapacitor_F: 220e-12,
          ledResistor_ohm: s.ledResistor_ohm,
          biasResistor_ohm: 1000,
          softFinishCapacitor_F: 0,
          senseTap: s.senseTap,
          ledTap: s.ledTap,
          referenceGain: 1000,
          referenceGainBandwidth_Hz: 1e6,
          transferRatio: s.transferRatio,
          led_A: 3e-3,
          optocouplerPole_Hz: 20e3,
          controlGain: s.slope_A_per_s === null ? 175 : 300,
          controlPole_Hz: 7e3,
        }
        const T = loopGain(small, path)
        const m = margins(T, 1e-3, 1e8)
        const closed = closedLoopPoles(T)
        const open = openLoopPoles(T)
        if (!m.ok || !closed.ok || !open.ok) return
        // a pole within a thousandth of the axis is not decided by a sweep of 40 points a decade
        if ([...closed.poles, ...open.poles].some((p) => Math.abs(p.damping) < 2e-3)) return
        const right = closed.poles.filter((p) => p.real_rad_per_s > 0).length
        const openRight = open.poles.filter((p) => p.real_rad_per_s > 0).length
        expect(unstableByNyquist(openRight, m)).toBe(right)
        const slowest = Math.min(...closed.poles.map((p) => Math.abs(p.real_rad_per_s)))
        const r = stepResponse(small, filter, path, 'load-current', 0.1, 12 / slowest, 1200)
        expect(r.ok).toBe(right === 0)
        if (r.ok) {
          stable++
          // after twelve of the longest time constants nothing of the transient is left
          expect(Math.abs(r.deviation_V[1199]! - r.deviation_V[1150]!)).toBeLessThan(
            1e-3 * Math.abs(r.peak_V) + 1e-6,
          )
        } else unstable++
      }),
      { seed: 17, numRuns: 800 },
    )
    expect(stable).toBeGreaterThan(80)
    expect(unstable).toBeGreaterThan(80)
  })
})
