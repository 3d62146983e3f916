import { requireBetween } from '../quantity/require.ts'

/** Charge that a surge of 1 kV behind 2 ohm drives into a short: 500 A in a wave of 8/20 µs, C. */
const surgeCharge_C = 0.01

/**
 * Voltage to which that surge lifts a bulk capacitor from its crest: V = Vcrest + Q/C. Thermistor, choke and line left
 * out: an upper bound.
 */
export const surgedBulk_V = (crest_V: number, capacitance_F: number): number =>
  crest_V + surgeCharge_C / capacitance_F

/** Time for which the open generator's wave of 1.2/50 µs stands above half (IEC 61000-4-5, from memory), s. */
const surge_s = 50e-6

/**
 * Voltage to which a bulk capacitor is lifted while a surge stands at `across_V` before what lies in series with it: the
 * least of three upper bounds, Vcrest + Q/C by the generator's charge, Vcrest + x (1 - e^(-t/RC)) by the resistance
 * alone and Vcrest + x t²/(2 L C) by the inductance alone, with x = across_V - Vcrest.
 */
export function bulkInSurge_V(s: {
  readonly crest_V: number
  readonly across_V: number
  readonly capacitance_F: number
  readonly series_ohm: number
  readonly series_H: number
}): number {
  const over_V = Math.max(0, s.across_V - s.crest_V)
  const byResistance_V =
    s.series_ohm > 0 ? -over_V * Math.expm1(-surge_s / (s.series_ohm * s.capacitance_F)) : over_V
  const byInductance_V =
    s.series_H > 0 ? (over_V * surge_s * surge_s) / (2 * s.series_H * s.capacitance_F) : over_V
  return Math.min(
    surgedBulk_V(s.crest_V, s.capacitance_F),
    s.crest_V + Math.min(over_V, byResistance_V, byInductance_V),
  )
}

/**
 * Line-to-line surge of the combination wave generator of IEC 61000-4-5 (open voltage behind 2 ohm) into a varistor:
 * current (Vsurge + Vcrest - Vclamp)/2 ohm and the voltage let through, with the varistor taken as its clamp voltage
 * scaled by (I/Iclamp)^(1/30) (exponent of metal-oxide parts, common practice, no source). 1 kV is the level for
 * ordinary equipment (from memory). Bulk capacitor and series parts left out: an upper bound of the varistor's current.
 */
export function surgeThroughVaristor(
  part: { readonly clampVoltage_V: number; readonly clampCurrent_A: number },
  surge_V: number,
  line_Vrms: number,
): { readonly current_A: number; readonly letThrough_V: number } {
  requireBetween('surge_V', surge_V, 0, 2e4, 'V')
  const open = surge_V + line_Vrms * Math.SQRT2
  // Newton's method from below on a concave function never passes the root.
  let current_A = 1e-3 * part.clampCurrent_A
  if (2 * current_A + clamp(part, current_A) >= open) return { current_A: 0, letThrough_V: open }
  for (let k = 0; k < 12; k++) {
    const held_V = clamp(part, current_A)
    const step_A = (open - 2 * current_A - held_V) / (2 + held_V / (30 * current_A))
    current_A += step_A
    if (step_A < 1e-12 * current_A) break
  }
  return { current_A, letThrough_V: open - 2 * current_A }
}

const clamp = (part: { clampVoltage_V: number; clampCurrent_A: number }, current_A: number): number =>
  part.clampVoltage_V * (current_A / part.clampCurrent_A) ** (1 / 30)
