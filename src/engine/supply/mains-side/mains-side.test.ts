import { describe, expect, it } from 'vitest'
import { demoSupplies } from '../../demo/index.ts'
import { limits } from '../../limits/index.ts'
import { estimateEmission } from '../../mains/emission.ts'
import { bulkRippleAllowed_A } from '../bulk-ripple.ts'
import { plantOf } from '../evaluate/plant-of.ts'
import { evaluate, resolve } from '../evaluate.ts'
import { atInput, bleedOf, bulkLife, emissionOf, fuseUse, harmonicsOf, plugIns, sweepMains } from './index.ts'

const [supply] = demoSupplies()
const resolved = resolve(supply!)
if (!resolved.ok) throw new Error('the demo resolves')
const design = resolved.value
const evaluation = evaluate(design)
const plant = plantOf(design)
const nominal = atInput(plant, 230)!

describe('the mains side of a design', () => {
  it('ends at the crest of the evaluation, and starts where the valley meets what the stage needs', () => {
    const { points, brownOut_V } = sweepMains(design, 3)
    const highest = evaluation.conditions.find((c) => c.condition.id === 'maximum-100')!
    expect(points).toHaveLength(3)
    // Same relations, so equal but for the tolerance of the fixed point.
    if (highest.runs) expect(points[2]!.bulk.maximum_V / highest.readings.bulkPeak_V).toBeCloseTo(1, 3)
    expect(points[0]!.input_V).toBe(brownOut_V)
    // Bisection in ten steps over seven tenths of the lowest input leaves less than one part in a thousand.
    expect(points[0]!.bulk.minimum_V / points[0]!.dropOut_V).toBeCloseTo(1, 1)
  })

  it('browns out where the valley meets what the stage needs', () => {
    const { brownOut_V } = sweepMains(design, 2)
    expect(brownOut_V).not.toBeNull()
    const source = design.need.source
    expect(brownOut_V!).toBeLessThan(source.kind === 'mains' ? source.minimum_Vrms : source.minimum_V)
    expect(atInput(plant, brownOut_V!)).not.toBeNull()
  })

  it('surges most right after a hot switch-off, least from cold', () => {
    const starts = plugIns(design, nominal.input.bulk.input_Arms)
    const peaks = starts.map((s) => s.peak_A)
    expect(starts[0]!.peak_A).toBeCloseTo(evaluation.fixed.inrush_Apeak, 6)
    expect(peaks).toEqual([...peaks].sort((a, b) => a - b))
    expect(fuseUse(design, 0.5, starts[0]!, 25)!.pulseUse).toBeGreaterThan(0)
  })

  it('lives twice as long 10 K cooler', () => {
    const livesAt = (inside_C: number) => bulkLife(design, evaluation, { ...nominal, inside_C })!.life_h
    expect(livesAt(75) / livesAt(85)).toBeCloseTo(2, 9)
    // common practice, no source: no more than 15 years is claimed, whatever the rule says
    expect(livesAt(20)).toBe(15 * 8766)
  })

  it('counts the ripple of the bulk capacitor as its limit does, and allows it by the air inside the case', () => {
    const one = limits(evaluation).find((l) => l.id === 'bulk.ripple-current')!
    const at100 = evaluation.conditions.find((c) => c.condition.id === 'nominal-100')!
    if (!at100.runs) throw new Error('it runs at nominal input')
    const { readings } = at100
    const use = bulkLife(design, evaluation, nominal)!.rippleUse
    expect(use).toBeLessThanOrEqual(one.reading / one.rating + 1e-9)
    expect(use * bulkRippleAllowed_A(design, readings)).toBeCloseTo(readings.bulkRippleEquivalent_Arms, 12)
    expect(bulkRippleAllowed_A(design, { insideAir_C: 85 })).toBeLessThan(
      bulkRippleAllowed_A(design, { insideAir_C: 70 }),
    )
  })

  it('asks for a bleed resistor that follows the exponential', () => {
    const bleed = bleedOf(design)!
    const C = design.parts.xCapacitor!.capacitance_F * (1 + design.parts.xCapacitor!.toleranceUp)
    const source = design.need.source
    const crest_V = Math.SQRT2 * (source.kind === 'mains' ? source.maximum_Vrms : 0)
    expect(crest_V * Math.exp(-2 / (bleed.by60V_ohm * C))).toBeCloseTo(60, 6)
    expect(Math.exp(-1 / (bleed.byShare_ohm * C))).toBeCloseTo(0.37, 6)
  })

  it('answers the harmonic question from its own input power', () => {
    const answer = harmonicsOf(design, nominal)!
    expect(answer.limitsApply).toBe(nominal.input.bulk.input_W > 75)
    // A pulse's harmonics together carry no more than its rms current.
    const sum = Math.hypot(...answer.harmonics.map((h) => h.current_Arms))
    expect(sum).toBeLessThan(nominal.input.bulk.input_Arms * 1.02)
  })

  it('leaves the margin with the inductance that it asks for, and not with a little less', () => {
    const answer = emissionOf(design, 'earthed')!
    const { source, filter, commonNeeded_H: needed_H, margin_dB } = answer
    expect(needed_H).toBeGreaterThan(0)
    const marginWith = (commonInductance_H: number): number =>
      estimateEmission(source, { ...filter, commonInductance_H }).commonMargin_dB
    expect(marginWith(needed_H!)).toBeGreaterThanOrEqual(margin_dB - 1e-3)
    expect(marginWith(0.98 * needed_H!)).toBeLessThan(margin_dB)
    expect(source.swing_V).toBeGreaterThan(evaluation.design.transformer.reflectedVoltage_V)
  })
})
