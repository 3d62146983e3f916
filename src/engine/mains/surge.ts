import { requireBetween } from '../quantity/require.ts'

/** Charge that a surge of 1 kV behind 2 ohm drives into a short: 500 A in a wave of 8/20 µs, C. */
const surgeCharge_C = 0.01

/**
 * Voltage to which that surge lifts a bulk capacitor from its crest: V = Vcrest + Q/C. Thermistor, choke and line left
 * out: an upper bound.
 */
export const surgedBulk_V = (crest_V: number, capacitance_F: number): number =>
  crest_V + surgeCharge_C / capacitance_F

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
  let low = 0
  let high = open / 2
  for (let k = 0; k < 50; k++) {
    const current = 0.5 * (low + high)
    if (current * 2 + clamp(part, current) < open) low = current
    else high = current
  }
  const current_A = 0.5 * (low + high)
  return { current_A, letThrough_V: open - 2 * current_A }
}

const clamp = (part: { clampVoltage_V: number; clampCurrent_A: number }, current_A: number): number =>
  part.clampVoltage_V * (current_A / part.clampCurrent_A) ** (1 / 30)
