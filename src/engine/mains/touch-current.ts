import { requireBetween } from '../quantity/require.ts'

/**
 * Upper bound of the current through a Y capacitor from the mains to a touched output: I = 2 pi f C V, A rms. The
 * voltage is the highest line voltage times its tolerance; with both lines alike to the primary return about half of
 * it stands at an unearthed output, which this bound does not use. The 2 kohm body network is left out (it changes a
 * current of this size by less than one part in a thousand).
 */
export function touchCurrent(capacitance_F: number, line_Vrms: number, frequency_Hz: number): number {
  requireBetween('capacitance_F', capacitance_F, 0, 1e-6, 'F')
  requireBetween('line_Vrms', line_Vrms, 0, 1000, 'V')
  requireBetween('frequency_Hz', frequency_Hz, 0, 1e3, 'Hz')
  return 2 * Math.PI * frequency_Hz * capacitance_F * line_Vrms
}

/** Largest Y capacitance for a touch-current limit, F. */
export const largestYCapacitance = (limit_Arms: number, line_Vrms: number, frequency_Hz: number): number =>
  limit_Arms / (2 * Math.PI * frequency_Hz * line_Vrms)

/**
 * Limits of touch current in common use, A rms at mains frequency (from memory; IEC 60950-1 and IEC 60990): handheld
 * or unearthed (class II) equipment 0.25 mA, earthed movable equipment 3.5 mA. Check the edition in force.
 */
export const touchLimits_Arms = { unearthed: 0.25e-3, earthed: 3.5e-3 } as const
