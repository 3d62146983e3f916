import { requireBetween } from '../quantity/require.ts'

/** Time for a capacitor to fall through a resistor: t = R C ln(from/to), s; zero when it starts lower. */
export function dischargeTime(
  capacitance_F: number,
  resistance_ohm: number,
  from_V: number,
  to_V: number,
): number {
  requireBetween('capacitance_F', capacitance_F, 0, 1, 'F')
  requireBetween('resistance_ohm', resistance_ohm, 0, 1e12, 'ohm')
  requireBetween('to_V', to_V, 1e-3, 1e4, 'V')
  return from_V <= to_V ? 0 : resistance_ohm * capacitance_F * Math.log(from_V / to_V)
}

/**
 * Largest bleed resistor across an X capacitor for a residual voltage after a time. The usual targets, from memory,
 * to be checked against the edition in force: IEC 60950-1 asked for 37 % of the start after 1 s (pluggable equipment),
 * IEC 62368-1 for 60 V after 2 s at the plug's pins where the capacitance is above 300 nF.
 */
export function largestBleed(capacitance_F: number, from_V: number, to_V: number, within_s: number): number {
  requireBetween('capacitance_F', capacitance_F, 1e-12, 1, 'F')
  requireBetween('to_V', to_V, 1e-3, from_V, 'V')
  requireBetween('within_s', within_s, 1e-6, 1e5, 's')
  return within_s / (capacitance_F * Math.log(from_V / to_V))
}

/** Power that a bleed resistor burns on the mains: V^2/R, W. */
export const bleedPower = (line_Vrms: number, resistance_ohm: number): number =>
  line_Vrms ** 2 / resistance_ohm

/** Energy stored: C V^2/2, J. */
export const storedEnergy = (capacitance_F: number, voltage_V: number): number =>
  0.5 * capacitance_F * voltage_V * voltage_V
