import { formatQuantity, formatRange } from '../quantity/index.ts'
import type { Evaluation } from '../supply/evaluation.ts'

/** Name, revision and job of a supply in one line. */
export function subtitle(evaluation: Evaluation): string {
  const { supply, need } = evaluation.design
  const from =
    need.source.kind === 'mains'
      ? `${formatRange(need.source.minimum_Vrms, need.source.maximum_Vrms, 'V')} AC`
      : `${formatRange(need.source.minimum_V, need.source.maximum_V, 'V')} DC`
  return `${supply.name}, revision ${supply.revision}: ${formatQuantity(need.output_V, 'V')} ${formatQuantity(need.output_A, 'A')} from ${from}`
}

/** Foot of every paper. */
export const foot = (evaluation: Evaluation): string =>
  `Computed by Gapwright (${evaluation.depth}) for this build alone. Mains can kill: work isolated, discharge and measure before touching, follow local codes. Not a certificate.`
