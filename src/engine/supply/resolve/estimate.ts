import { solveBulk } from '../../mains/bulk.ts'
import type { PartsUsed } from '../design.ts'
import { bulkSource } from '../evaluate/bulk-source.ts'
import type { Need } from '../need.ts'

/** What free choices are made from, before the supply is solved: lowest input at full load, and the highest input. */
export interface Estimate {
  readonly stage_W: number
  readonly valley_V: number
  readonly bulkMaximum_V: number
  readonly rectifierDrop_V: number
  readonly frequency_Hz: number
}

/** Efficiency that a small flyback reaches before anything is known of it; common practice, no source. */
const usualEfficiency = 0.84

/** Estimates the power drawn and the bulk voltage it is drawn from. */
export function estimate(need: Need, parts: PartsUsed, bulk_F: number): Estimate {
  const stage_W = (need.output_V * need.output_A) / usualEfficiency
  const drop_V = parts.bridge?.drop_V ?? 0
  const least = bulkSource(need, 'minimum')
  const bulk = solveBulk({
    source: least,
    seriesResistance_ohm: (parts.ntc?.hot_ohm ?? 0) + (parts.fuse?.resistance_ohm ?? 0) + 0.3,
    bridgeDrop_V: drop_V,
    capacitance_F: bulk_F,
    power_W: stage_W,
  })
  const highest = bulkSource(need, 'maximum')
  const crest = (s: typeof least) =>
    (s.kind === 'mains' ? s.voltage_Vrms * Math.SQRT2 : s.voltage_V) - 2 * drop_V
  return {
    stage_W,
    // A bulk that collapses is reported by the evaluation; choices are made as if half the crest were left.
    valley_V: Math.max(0.4 * crest(least), bulk.ok ? bulk.minimum_V : 0),
    bulkMaximum_V: crest(highest),
    rectifierDrop_V: parts.rectifier.drop_V + 1.5 * need.output_A * parts.rectifier.slope_ohm,
    frequency_Hz: parts.switcher.frequency_Hz.typical,
  }
}
