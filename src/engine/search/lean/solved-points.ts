import { conditionById } from '../../supply/condition.ts'
import { newLosses } from '../../supply/evaluate/losses.ts'
import { can_H } from '../../supply/resolve/secondary-path.ts'
import { newBulkPoint } from './bulk-table.ts'
import { coldStart, type Settled, settleSurely, warmed } from './settle.ts'
import type { Stand } from './stand.ts'

/** Full load at the points that decide. */
export const conditionAt = {
  low: conditionById.get('minimum-100')!,
  weak: conditionById.get('power-corner')!,
  flux: conditionById.get('flux-corner')!,
  high: conditionById.get('maximum-100')!,
}
/** Overload at the lowest and the highest input. */
const overloadAt = [conditionById.get('overload-minimum')!, conditionById.get('overload-maximum')!] as const
/** The bulk at the point that was settled last. */
export const bulk = newBulkPoint()
/** Losses of each point, written over from candidate to candidate. */
export const losses = {
  low: newLosses(),
  weak: newLosses(),
  high: newLosses(),
  flux: newLosses(),
  over: newLosses(),
}
/** Tolerances of typical parts. */
export const typicalOf = ({ inductance_H, leakage_H, currentLimit_A, maximumDuty }: Stand['plant']) => ({
  inductance_H: inductance_H.typical,
  leakage_H: leakage_H.typical,
  limit_A: currentLimit_A.typical,
  maximumDuty: maximumDuty.typical,
})

/** Of the weakest. */
export const weakestOf = ({
  inductance_H,
  leakage_H,
  currentLimit_A,
  maximumDuty,
  frequency_Hz,
}: Stand['plant']) => ({
  inductance_H: inductance_H.minimum,
  leakage_H: leakage_H.maximum,
  limit_A: currentLimit_A.minimum,
  maximumDuty: maximumDuty.minimum,
  frequency_Hz: frequency_Hz.minimum,
})

/** Of the strongest, with the most leakage. */
export const strongestOf = ({ inductance_H, leakage_H, currentLimit_A, maximumDuty }: Stand['plant']) => ({
  inductance_H: inductance_H.maximum,
  leakage_H: leakage_H.maximum,
  limit_A: currentLimit_A.maximum,
  maximumDuty: maximumDuty.typical,
})

/** Solves overload at the lowest input (0) or the highest (1), begun from that of the candidate before. */
export function overload(stand: Stand, at: 0 | 1): Settled | 'stops' {
  const { plant: p, tables, overloads } = stand
  const lean = { table: at === 0 ? tables.overLow : tables.overHigh, ...strongestOf(p), overload: true }
  const over = settleSurely(p, lean, overloadAt[at], overloads[at] ?? coldStart(p), bulk, losses.over)
  if (over !== 'stops') overloads[at] = warmed(p, over)
  return over
}

/** Inductance that the rectifier's current runs through, at the secondary. */
export const loopOf_H = (p: Stand['plant']): number =>
  p.leakage_H.typical / p.turnsRatio ** 2 + can_H / p.outputCount
