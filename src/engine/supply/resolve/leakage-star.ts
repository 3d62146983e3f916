import { leakageClosedForm, type StackLayout } from '../../magnetics/stack/index.ts'

/** How the leakage of three windings lies between them, as parts of that between primary and secondary. */
export interface LeakageStar {
  /** The secondary's own part, seen at the primary. */
  readonly secondaryShare: number
  /** The bias winding's own part, seen at the primary. */
  readonly biasShare: number
}

/** Below this share of the whole the secondary's own part is counted to the primary. */
const leastShare = 0.1

/**
 * Leakage between three windings as a star: with the three pairs referred to the primary, the part of each winding
 * is half of the two pairs it is in less the one it is not in. A part that comes out negative (a winding that lies
 * between the others) is none. Any textbook on transformers with three windings.
 */
export function leakageStar(layout: StackLayout, primaryTurns: number, secondaryTurns: number): LeakageStar {
  const pair = (a: string, b: string): number => leakageClosedForm(layout, a, b)?.leakage_H ?? 0
  const whole = pair('primary', 'secondary')
  if (!(whole > 0)) return { secondaryShare: 0, biasShare: 0.05 }
  const toBias = pair('primary', 'bias') / whole
  const across = (pair('secondary', 'bias') / whole) * (primaryTurns / secondaryTurns) ** 2
  const secondary = Math.min(0.8, (1 + across - toBias) / 2)
  return {
    secondaryShare: secondary > leastShare ? secondary : 0,
    biasShare: Math.max(0.05, (toBias + across - 1) / 2),
  }
}
