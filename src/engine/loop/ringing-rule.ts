import { requireBetween } from '../quantity/require.ts'

/**
 * Damping of a second-order response from the cycles of ringing that can be counted until one twentieth is left:
 * exp(-2 pi z n/sqrt(1 - z^2)) = 1/20.
 */
export function dampingFromCycles(cycles: number): number {
  requireBetween('cycles', cycles, 0.05, 1000)
  const decrement = Math.log(20) / cycles
  return decrement / Math.hypot(2 * Math.PI, decrement)
}

/**
 * Phase margin of the standard second-order loop with a damping: PM = atan(2 z/sqrt(sqrt(1 + 4 z^4) - 2 z^2)), degrees.
 * Source: any control text, e.g. Ogata, Modern Control Engineering, sect. 7-7 (from memory).
 */
export function phaseMarginFromDamping(damping: number): number {
  requireBetween('damping', damping, 0, 1)
  const z2 = damping * damping
  return (Math.atan((2 * damping) / Math.sqrt(Math.sqrt(1 + 4 * z2 * z2) - 2 * z2)) * 180) / Math.PI
}

/**
 * What a bench can tell from a load step: cycles of ringing counted -> band of phase margin. One cycle more or less is
 * taken as the counting error.
 */
export function marginFromRinging(cycles: number): { readonly low_deg: number; readonly high_deg: number } {
  const low = phaseMarginFromDamping(dampingFromCycles(cycles + 1))
  const high = phaseMarginFromDamping(dampingFromCycles(Math.max(0.25, cycles - 1)))
  return { low_deg: low, high_deg: high }
}

/**
 * The two part changes to try for a margin read from ringing. Lower gain is not always the cure: with the zero close to
 * the crossover it eats phase, so the zero moves first.
 */
export function ringingAdvice(band: {
  readonly low_deg: number
  readonly high_deg: number
}): readonly string[] {
  if (band.low_deg >= 45) return ['the margin is ample: leave the network as it is']
  return [
    'double the compensation capacitor: the zero moves down and gives phase back at the crossover',
    band.high_deg < 20
      ? 'halve the compensation resistor, or use the next larger LED resistor inside its bracket: the crossover comes down'
      : 'take the compensation resistor two steps of E12 down: the crossover comes down a little',
  ]
}
