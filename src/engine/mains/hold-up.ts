import { requireBetween } from '../quantity/require.ts'

/**
 * Time for which a capacitor alone carries a constant power: t = C (v1^2 - v2^2)/(2 P), s. Zero when it starts below
 * the end voltage, infinite without load. Take v1 at the valley for the least hold-up, at the crest for the most.
 */
export function holdUpTime(capacitance_F: number, from_V: number, to_V: number, power_W: number): number {
  requireBetween('capacitance_F', capacitance_F, 0, 1, 'F')
  requireBetween('from_V', from_V, 0, 1e4, 'V')
  requireBetween('to_V', to_V, 0, 1e4, 'V')
  requireBetween('power_W', power_W, 0, 1e5, 'W')
  if (from_V <= to_V) return 0
  return power_W === 0
    ? Number.POSITIVE_INFINITY
    : (capacitance_F * (from_V * from_V - to_V * to_V)) / (2 * power_W)
}

/** Capacitance that holds up a constant power for a time between two voltages: the same relation turned round, F. */
export function holdUpCapacitance(time_s: number, from_V: number, to_V: number, power_W: number): number {
  requireBetween('to_V', to_V, 0, from_V, 'V')
  return (2 * power_W * time_s) / (from_V * from_V - to_V * to_V)
}
