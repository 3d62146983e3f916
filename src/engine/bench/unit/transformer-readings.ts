import { saturationFlux } from '../../magnetics/material/index.ts'
import { pulsed_C, saturationCurrent_A } from '../../supply/resolve/pulsed-ferrite.ts'
import type { Readings } from './readings.ts'
import type { Unit } from './unit.ts'

/** Part of the inductance that one shorted turn leaves: its coupling to a whole winding is loose. Typical, no source. */
const shortedTurnLeaves = 0.1
/** Quality factor that a shorted turn leaves. Typical, no source. */
const shortedTurnQuality = 2

/**
 * What LCR meter, generator and saturation tester read on the transformer alone.
 *
 * Series pair: Lp + Ls ± 2 k sqrt(Lp Ls) with k² = 1 - Llk/Lp. Saturation knee: I = B(25 °C) N Amin / L. Own resonance:
 * 1/(2 pi sqrt(L C)) with the coil's capacitance. Quality: 2 pi f L over dc and eddy resistance of the primary's field.
 */
export function transformerReadings(unit: Unit): Readings {
  const { design: d } = unit
  const { transformer: t, core, ferrite, parts } = d
  const left = unit.shortedTurn ? shortedTurnLeaves : 1
  const L = t.primaryInductance_H.typical * left
  const leakage_H = Math.min(0.95 * L, t.leakage_H.typical)
  const Ls = L / t.turnsRatio ** 2
  const mutual_H = unit.secondarySense * Math.sqrt(Math.max(0, 1 - leakage_H / L) * L * Ls)
  const biasOpen = unit.parts.biasWinding === 'open'
  const f = parts.switcher.frequency_Hz.typical
  const eddy_ohm = t.coil.excess.primary_ohm[0] ?? 0
  const core_ohm = (unit.coreLossFactor - 1) * 0.02 * 2 * Math.PI * f * L
  const quality = (2 * Math.PI * f * L) / (t.primaryResistance20_ohm + eddy_ohm + core_ohm)
  const { effective } = core.geometry
  return {
    'transformer.inductance': L,
    'transformer.leakage': leakage_H,
    'transformer.aiding': L + Ls + 2 * mutual_H,
    'transformer.opposing': L + Ls - 2 * mutual_H,
    'transformer.ratio-secondary': t.turnsRatio,
    'transformer.ratio-bias': biasOpen ? null : t.primaryTurns / t.biasTurns,
    'transformer.secondary-sense': unit.secondarySense > 0 ? 'same' : 'opposite',
    'transformer.bias-sense': biasOpen ? 'none' : unit.biasSense > 0 ? 'same' : 'opposite',
    'transformer.primary-ohm': t.primaryResistance20_ohm,
    'transformer.secondary-ohm': t.secondaryResistance20_ohm,
    'transformer.bias-ohm': biasOpen ? 4e7 : t.biasResistance20_ohm,
    'transformer.quality': unit.shortedTurn ? Math.min(shortedTurnQuality, quality) : quality,
    'transformer.knee': saturationCurrent_A(saturationFlux(ferrite.curve, pulsed_C), {
      turns: t.primaryTurns,
      area_m2: effective.minimumArea_m2,
      inductance_H: t.primaryInductance_H.typical,
    }),
    'transformer.squeeze': unit.squeeze,
    'transformer.resonance': 1 / (2 * Math.PI * Math.sqrt(L * t.coil.drainCapacitance_F)),
    'transformer.insulation': Math.min(unit.barrier_ohm, 2e9),
  }
}
