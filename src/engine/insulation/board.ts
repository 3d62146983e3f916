import { requireBetween } from '../quantity/require.ts'

const squareMil_m2 = 25.4e-6 ** 2

/** Copper of one ounce a square foot, m (IPC; 1.378 mil). */
export const ounceCopper_m = 35e-6

/**
 * Track width for a current and a rise: I = k dT^0.44 A^0.725, A in square mil, k 0.048 outside and 0.024 inside a
 * board. Source: curve fit of IPC-2221 sect. 6.2 (from memory, recomputed). Valid to about 35 A and 100 K.
 */
export function trackWidth(
  current_A: number,
  rise_K: number,
  copper_m: number,
  layer: 'external' | 'internal',
): number {
  requireBetween('current_A', current_A, 0, 35, 'A')
  requireBetween('rise_K', rise_K, 1, 100, 'K')
  requireBetween('copper_m', copper_m, 5e-6, 5e-4, 'm')
  const k = layer === 'external' ? 0.048 : 0.024
  const area = (current_A / (k * rise_K ** 0.44)) ** (1 / 0.725)
  return (area * squareMil_m2) / copper_m
}

/** Functional spacing of IPC-9592 for power conversion: 0.6 mm + 0.005 mm per peak volt, m. */
export function spacingPowerConversion(peak_V: number): number {
  requireBetween('peak_V', peak_V, 0, 1e4, 'V')
  return (0.6 + 0.005 * peak_V) * 1e-3
}

/** Rows of IPC-2221 table 6-1 column B2 (outer, uncoated, to 3050 m): to this voltage, mm (from memory). */
const outerUncoated_mm: readonly (readonly [number, number])[] = [
  [30, 0.1],
  [150, 0.6],
  [300, 1.25],
  [500, 2.5],
]

/** Functional spacing of outer uncoated conductors, IPC-2221 column B2; 0.005 mm a volt above 500 V, m. */
export function spacingOuterUncoated(peak_V: number): number {
  requireBetween('peak_V', peak_V, 0, 1e4, 'V')
  const row = outerUncoated_mm.find(([to]) => peak_V <= to)
  return (row ? row[1] : 2.5 + 0.005 * (peak_V - 500)) * 1e-3
}
