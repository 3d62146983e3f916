import { formatQuantity, formatRange } from '../quantity/index.ts'
import type { Evaluation } from '../supply/evaluation.ts'

/** Input range in words, `85–265 V AC, 50 Hz`. */
export function inputWords(evaluation: Evaluation): string {
  const { source } = evaluation.design.need
  return source.kind === 'mains'
    ? `${formatRange(source.minimum_Vrms, source.maximum_Vrms, 'V')} AC, ${formatQuantity(source.frequency_Hz, 'Hz')}`
    : `${formatRange(source.minimum_V, source.maximum_V, 'V')} DC`
}

/** Name, revision and job of a supply in one line. */
export function subtitle(evaluation: Evaluation): string {
  const { supply, need } = evaluation.design
  return `${supply.name}, revision ${supply.revision}: ${formatQuantity(need.output_V, 'V')} ${formatQuantity(need.output_A, 'A')} from ${inputWords(evaluation)}`
}

/** Foot of every paper. */
export const foot = (evaluation: Evaluation): string =>
  `Computed by Gapwright (${evaluation.depth}) for this build alone, no certificate. Mains can kill: isolate; discharge, measure, then touch; follow local codes.`
