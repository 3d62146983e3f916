import { requireBetween } from '../quantity/require.ts'

/**
 * Bulk valley by the hand rule with an *assumed* conduction time: v = sqrt(Vcrest^2 - 2 P (1/(2 f) - t)/C).
 *
 * Ideal source and bridge (no drop, no resistance), charging taken to end at the crest. Common practice with t near
 * 3 ms; it flatters large capacitors, since t is really shorter for them. For a solved valley use `solveBulk`.
 * Returns null when the capacitor would be empty. Units SI.
 */
export function valleyWithFixedConduction(
  line_Vrms: number,
  frequency_Hz: number,
  capacitance_F: number,
  power_W: number,
  conduction_s: number,
): number | null {
  requireBetween('line_Vrms', line_Vrms, 1, 1e4, 'V')
  requireBetween('frequency_Hz', frequency_Hz, 1, 1e4, 'Hz')
  requireBetween('capacitance_F', capacitance_F, 1e-9, 1, 'F')
  requireBetween('power_W', power_W, 0, 1e5, 'W')
  requireBetween('conduction_s', conduction_s, 0, 0.5 / frequency_Hz, 's')
  const square = 2 * line_Vrms ** 2 - (2 * power_W * (0.5 / frequency_Hz - conduction_s)) / capacitance_F
  return square > 0 ? Math.sqrt(square) : null
}
