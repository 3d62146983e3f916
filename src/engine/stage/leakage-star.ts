import { leakageClosedForm } from '../magnetics/stack/index.ts'
import type { Design } from '../supply/design.ts'

/** Leakage of each winding, H: the primary's at the primary, the others' at their own sides. */
export interface LeakageStar {
  readonly primary_H: number
  readonly secondary_H: number
  readonly bias_H: number
}

/** Below this share of the whole the secondary's own part is counted to the primary. */
const leastShare = 0.1

/**
 * Leakage between three windings as a star: with the three pairs referred to the primary, the part of each winding
 * is half of the two pairs it is in less the one it is not in. Between primary and secondary the parts add up to
 * `leakage_H`, measured or planned; a part that comes out negative (a winding that lies between the others) is none.
 * Any textbook on transformers with three windings.
 */
export function leakageStar(d: Design, leakage_H: number): LeakageStar {
  const { layout } = d.transformer.coil
  const ratio = d.transformer.turnsRatio
  const biasRatio = d.transformer.primaryTurns / d.transformer.biasTurns
  const pair = (a: string, b: string): number => leakageClosedForm(layout, a, b)?.leakage_H ?? 0
  const whole = pair('primary', 'secondary')
  const toBias = pair('primary', 'bias')
  const across = pair('secondary', 'bias') * ratio ** 2
  const scale = whole > 0 ? leakage_H / whole : 1
  const secondary = Math.min(0.8 * whole, (whole + across - toBias) / 2)
  const share = secondary > leastShare * whole ? secondary * scale : 0
  const bias = Math.max(0.05 * whole, (toBias + across - whole) / 2) * scale
  return {
    primary_H: leakage_H - share,
    secondary_H: share / ratio ** 2,
    bias_H: bias / biasRatio ** 2,
  }
}
