import { type BulkReading, solveBulk } from '../../mains/bulk.ts'
import type { Condition } from '../condition.ts'
import { hotResistance_ohm } from './hot-resistance.ts'
import type { Plant } from './plant.ts'

/** The mains corner at one power: the bulk voltage and what each part before it burns. */
export interface InputSide {
  readonly bulk: BulkReading
  readonly power_W: number
  readonly thermistor_ohm: number
  readonly thermistor_W: number
  readonly bridge_W: number
  /** Fuse and common-mode choke. */
  readonly fuse_W: number
  readonly bleed_W: number
}

const volts = (p: Plant, input: Condition['input']): number => {
  const s = p.source[input]
  return s.kind === 'mains' ? s.voltage_Vrms : s.voltage_V
}

/**
 * Solves the bulk voltage for the power that the stage draws. The thermistor's resistance is found at the rms
 * current of `before`, or of a guess from the usual power factor of 0.6. Null when the bulk cannot carry the power.
 */
export function inputSide(
  p: Plant,
  input: Condition['input'],
  capacitance_F: number,
  power_W: number,
  before: InputSide | null,
): InputSide | null {
  const source = p.source[input]
  const input_V = volts(p, input)
  const guess_A = before
    ? (before.bulk.input_Arms * power_W) / before.power_W
    : power_W / (input_V * (source.kind === 'mains' ? 0.6 : 1))
  const thermistor_ohm = p.thermistor ? hotResistance_ohm(p.thermistor, p.ambient_C, guess_A) : 0
  const slope_ohm = 2 * p.bridgeSlope_ohm
  const series_ohm = p.fixedInputResistance_ohm + slope_ohm + thermistor_ohm
  const bulk = solveBulk(
    {
      source,
      seriesResistance_ohm: series_ohm,
      bridgeDrop_V: p.bridgeDrop_V,
      capacitance_F,
      power_W,
    },
    before?.bulk,
  )
  if (!bulk.ok) return null
  const share = series_ohm > 0 ? bulk.resistance_W / series_ohm : 0
  return {
    bulk,
    power_W,
    thermistor_ohm,
    thermistor_W: share * thermistor_ohm,
    bridge_W: bulk.bridgeDrop_W + share * slope_ohm,
    fuse_W: share * p.fixedInputResistance_ohm,
    bleed_W: p.bleed_ohm === null ? 0 : (input_V * input_V) / p.bleed_ohm,
  }
}

/** The same corner at a power a little off the one it was solved for: its losses go with the power. */
export function atPower(side: InputSide, power_W: number): InputSide {
  const ratio = power_W / side.power_W
  return {
    ...side,
    power_W,
    thermistor_W: side.thermistor_W * ratio,
    bridge_W: side.bridge_W * ratio,
    fuse_W: side.fuse_W * ratio,
  }
}
