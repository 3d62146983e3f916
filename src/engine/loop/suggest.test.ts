import { describe, expect, it } from 'vitest'
import { seriesNearest } from '../quantity/e-series.ts'
import { cornerMargins } from './corners.ts'
import { crossoverLimits } from './crossover-limits.ts'
import { type FeedbackPath, optocouplerPole } from './feedback-path.ts'
import type { FlybackStage } from './operating-point.ts'
import { powerStage } from './power-stage.ts'
import { suggestNetwork, withNetwork } from './suggest.ts'

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
  filter: { capacitance_F: 470e-6, capacitorResistance_ohm: 0.03, second: null },
  load: { kind: 'resistor' },
}
const path: FeedbackPath = {
  dividerTop_ohm: 38e3,
  dividerBottom_ohm: 10e3,
  compensationResistor_ohm: 1,
  compensationCapacitor_F: 1e-9,
  highFrequencyCapacitor_F: 0,
  ledResistor_ohm: 1000,
  biasResistor_ohm: 1000,
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
const at = (s: FlybackStage) => {
  const small = powerStage(s, { style: 'voltage-mode' })
  if (!small.ok) throw new Error(small.message)
  return small
}
const corners = [
  { name: 'full load', stage: at(stage), path },
  { name: 'weak optocoupler', stage: at(stage), path: { ...path, transferRatio: 0.5 } },
  { name: 'strong optocoupler', stage: at(stage), path: { ...path, transferRatio: 2 } },
  { name: 'light load', stage: at({ ...stage, output_A: 0.25 }), path },
]
const question = {
  corners,
  crossover_Hz: 2000,
  phaseMargin_deg: 60,
  ledResistorMinimum_ohm: 300,
  ledResistorMaximum_ohm: 3000,
}

describe('suggested network', () => {
  const answer = suggestNetwork(question)
  if (!answer.ok) throw new Error(answer.message)

  it('crosses over within a tenth of what was asked, with the margin, from preferred values', () => {
    const first = answer.margins.corners[0]!.margins
    if (!first.ok) throw new Error(first.message)
    expect(Math.abs(first.crossover_Hz / 2000 - 1)).toBeLessThan(0.1)
    expect(first.phaseMargin_deg).toBeGreaterThan(60)
    const n = answer.network
    expect(seriesNearest(n.compensationResistor_ohm, 'E24')).toBeCloseTo(n.compensationResistor_ohm, 9)
    expect(seriesNearest(n.compensationCapacitor_F, 'E6') / n.compensationCapacitor_F).toBeCloseTo(1, 9)
    expect(n.ledResistor_ohm).toBeGreaterThanOrEqual(300)
    expect(n.ledResistor_ohm).toBeLessThanOrEqual(3000)
  })

  it('reports the same margins as a fresh judgement of its corners, and the worst by name', () => {
    const again = cornerMargins(corners.map((c) => ({ ...c, path: withNetwork(c.path, answer.network) })))
    expect(again).toEqual(answer.margins)
    const least = Math.min(...again.corners.map((c) => (c.margins.ok ? c.margins.phaseMargin_deg : 999)))
    expect(again.leastPhase!.phaseMargin_deg).toBe(least)
  })

  it('lowers the crossover for a right-half-plane zero and says so', () => {
    const low = at({ ...stage, bulk_V: 90, output_A: 4, primaryInductance_H: 3e-3 })
    const limits = crossoverLimits([{ name: 'low', stage: low, path }])
    expect(limits[0]!.reason).toBe('right-half-plane zero')
    expect(limits[0]!.limit_Hz).toBeCloseTo(low.features.rightHalfPlaneZero_Hz / 3, 6)
    const a = suggestNetwork({
      ...question,
      corners: [{ name: 'low', stage: low, path }],
      crossover_Hz: 5000,
    })
    if (!a.ok) throw new Error(a.message)
    expect(a.aimed_Hz).toBeLessThanOrEqual(limits[0]!.limit_Hz)
    expect(a.warnings.join()).toMatch(/right-half-plane zero/)
  })

  it('fails with a sentence when no LED resistor fits', () => {
    const a = suggestNetwork({ ...question, ledResistorMinimum_ohm: 101, ledResistorMaximum_ohm: 102 })
    expect(a).toMatchObject({ ok: false, code: 'no-network' })
  })
})

describe('optocoupler pole', () => {
  it('falls as one over the load and is held at five times the data sheet', () => {
    const part = { pole_Hz: 20e3, poleLoad_ohm: 1000 }
    expect(optocouplerPole(part, 4000)).toBeCloseTo(5e3, 9)
    expect(optocouplerPole(part, 10)).toBeCloseTo(100e3, 6)
  })
})
