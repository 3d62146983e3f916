import { windingCapacitance_F } from '../../magnetics/stack/index.ts'
import {
  type EmissionEstimate,
  type EmissionFilter,
  type EmissionSource,
  estimateEmission,
  inductanceNeeded,
} from '../../mains/emission.ts'
import type { Design } from '../design.ts'
import { plantOf } from '../evaluate/plant-of.ts'
import { atInput } from './sweep.ts'

/** Edge of the switch node, s; series inductance of one electrolytic on short tracks, H. Typical, no source. */
const edge_s = 50e-9
const electrolytic_H = 20e-9
/** Switch node to earth: a tab in air, or on a heatsink that stands in air. Typical, no source. */
const strayAlone_F = 2e-12
const strayHeatsink_F = 10e-12
/** Output to earth: leads and a floating load on a bench; an earthed output. Typical, no source. */
const outputToEarth_F = { floating: 100e-12, earthed: 1e-6 } as const
export type OutputEarth = keyof typeof outputToEarth_F

export interface EmissionAnswer {
  readonly source: EmissionSource
  readonly filter: EmissionFilter
  readonly estimate: EmissionEstimate
  /** Least inductance that leaves the margin asked for; null where none up to 100 mH does. */
  readonly differentialNeeded_H: number | null
  readonly commonNeeded_H: number | null
  readonly margin_dB: number
}

/**
 * Conducted emission of a design at nominal input and full load, estimated with its own filter, and the inductances that
 * the estimate would need. Null where it does not run there. Good to perhaps 10 dB; the equivalent circuits are those of
 * `estimateEmission`, layout and coupling are not in them.
 */
export function emissionOf(design: Design, earth: OutputEarth, margin_dB = 6): EmissionAnswer | null {
  const { need, parts } = design
  const plant = plantOf(design)
  const nominal_V = need.source.kind === 'mains' ? need.source.nominal_Vrms : need.source.nominal_V
  const there = atInput(plant, nominal_V)
  if (there === null) return null
  const { mean, reflected_V, input } = there
  const source: EmissionSource = {
    frequency_Hz: plant.frequency_Hz.typical,
    pulse_A: mean.peak_A,
    duty: Math.max(0.01, mean.duty),
    bulkResistance_ohm: plant.bulkResistance_ohm / plant.bulkCount,
    bulkInductance_H: electrolytic_H / plant.bulkCount,
    swing_V: input.bulk.average_V + reflected_V,
    edge_s,
    windingCapacitance_F: windingCapacitance_F(design.transformer.coil.layout, 'primary', 'secondary'),
    strayCapacitance_F: parts.switcherHeatsink === null ? strayAlone_F : strayHeatsink_F,
    outputToEarth_F: outputToEarth_F[earth],
  }
  const filter: EmissionFilter = {
    differentialInductance_H: parts.commonModeChoke?.leakage_H ?? 0,
    xCapacitance_F: parts.xCapacitor?.capacitance_F ?? 0,
    commonInductance_H: parts.commonModeChoke?.inductance_H ?? 0,
    yCapacitance_F: parts.yCapacitor?.capacitance_F ?? 0,
  }
  return {
    source,
    filter,
    estimate: estimateEmission(source, filter),
    differentialNeeded_H: inductanceNeeded('differential', source, filter, margin_dB),
    commonNeeded_H: inductanceNeeded('common', source, filter, margin_dB),
    margin_dB,
  }
}
