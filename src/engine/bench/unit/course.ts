import { settledClamp_V } from '../../converter/clamp.ts'
import { readShort } from '../../supply/evaluate/read-short.ts'
import type { Bench } from './at-load.ts'
import { feedbackPath, setPoint_V } from './low-energy-readings.ts'
import type { Unit } from './unit.ts'

/** What a unit does once mains is on. */
export type Course =
  /** Nothing reaches the bulk capacitor. */
  | { readonly kind: 'dead' }
  /** The bulk node is a short. */
  | { readonly kind: 'shorted' }
  /** Bulk is there, no pulses come. */
  | { readonly kind: 'silent' }
  /** Tries, gives up, waits, tries again. */
  | {
      readonly kind: 'hiccup'
      readonly output_V: number
      readonly bias_V: number
      readonly clamp_V: number
      readonly try_W: number
      readonly biasMotion: 'sawtooth' | 'steady'
    }
  /** The output rises until the bias voltage trips the chip. */
  | { readonly kind: 'runaway'; readonly output_V: number; readonly try_W: number }
  | { readonly kind: 'regulates'; readonly output_V: number }

/** Share of the set voltage that a multimeter shows while an unfed chip starts and stops. Typical, no source. */
const averageOfTries = 0.4

/**
 * What a unit does at a part of its load at the nominal input: found from what is broken, the energy that a try
 * delivers against what the output capacitors take, and the power ceiling against the load.
 */
export function courseOf(unit: Unit, bench: Bench, load: number): Course {
  const { design: d, parts } = unit
  const { plant } = bench
  const mains = d.need.source.kind === 'mains'
  if (parts.input === 'open' || (mains && parts.bridge === 'open')) return { kind: 'dead' }
  if ((mains && parts.bridge === 'short') || parts.bulk === 'short' || parts.drain === 'short')
    return { kind: 'shorted' }
  if (feedbackPath(unit) === 'stuck') return { kind: 'silent' }

  const limit_A = plant.currentLimit_A.typical
  const L = plant.inductance_H.typical
  const stored_W = 0.5 * L * limit_A * limit_A * plant.frequency_Hz.typical
  const share = plant.restartShare
  const least_V = d.parts.switcher.biasVoltage_V.minimum
  const hiccup = (output_V: number, clamp_V: number, try_W: number, fed: boolean): Course => ({
    kind: 'hiccup',
    output_V,
    bias_V: least_V,
    clamp_V: parts.clamp === 'good' ? clamp_V : 0,
    try_W,
    biasMotion: fed ? 'steady' : 'sawtooth',
  })
  const idle = bench.at('maximum', 0)
  const short_W = idle ? readShort(plant, idle.readings).input_W / share : stored_W
  const leakage_W = 0.5 * plant.leakage_H.typical * limit_A * limit_A * plant.frequency_Hz.typical
  const clampTry_V = (power_W: number): number =>
    plant.clampStyle === 'avalanche'
      ? plant.avalanche_V.typical
      : settledClamp_V(power_W, plant.clampResistor_ohm, 1)

  if (parts.clampDiode === 'reversed' || parts.clampDiode === 'short')
    return hiccup(0, 0, Math.min(60, stored_W), true)
  if (unit.shortedTurn) return hiccup(0, share * clampTry_V(leakage_W), 0.6 * stored_W, true)
  if (unit.secondarySense < 0)
    return hiccup(0.25 * d.need.output_V, share * clampTry_V(stored_W), stored_W, true)
  if (parts.rectifier === 'open') return hiccup(0, share * clampTry_V(stored_W), stored_W, true)
  if (parts.rectifier === 'reversed')
    return hiccup(-0.1 * d.need.output_V, share * clampTry_V(leakage_W), short_W, true)
  if (parts.rectifier === 'short' || parts.outputCapacitor === 'short')
    return hiccup(0, share * clampTry_V(leakage_W), short_W, true)
  if (unit.stubbornLoad && load > 0)
    return hiccup(0.05 * d.need.output_V, share * clampTry_V(leakage_W), short_W, true)

  const set_V = setPoint_V(unit)
  if (feedbackPath(unit) === 'open' || set_V === null) {
    const trip = d.parts.switcher.biasVoltage_V.maximum / Math.max(1, d.biasVoltage_V)
    return { kind: 'runaway', output_V: d.need.output_V * Math.max(1.15, trip), try_W: stored_W }
  }
  const biasFails = parts.biasWinding === 'open' || parts.biasDiode !== 'good' || unit.biasSense < 0
  if (biasFails || d.biasVoltage_V < least_V)
    return hiccup(averageOfTries * set_V, share * clampTry_V(leakage_W), 0.5 * stored_W, false)

  const delivered_J = 0.8 * stored_W * d.parts.switcher.restartTry_s
  const asked_J = 0.5 * (plant.outputCapacitance_F + plant.secondCapacitance_F) * set_V * set_V
  if (asked_J > delivered_J)
    return hiccup(set_V * Math.sqrt(delivered_J / asked_J), share * clampTry_V(leakage_W), stored_W, true)

  const full = bench.at('nominal', 1)
  const ceiling_W = full?.readings.powerCeiling_W ?? 0
  const asked_W = load * set_V * d.need.output_A
  if (asked_W > ceiling_W)
    return hiccup((set_V * ceiling_W) / asked_W / 2, share * clampTry_V(leakage_W), stored_W, true)
  return { kind: 'regulates', output_V: set_V }
}
