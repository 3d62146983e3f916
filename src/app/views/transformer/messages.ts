import type { FieldMap, GapLoss } from '../../../engine/magnetics/field/index.ts'
import type { ConditionId } from '../../../engine/supply/condition.ts'
import type { Result } from '../../../engine/supply/result.ts'
import type { Supply } from '../../../engine/supply/supply.ts'
import type { ConductorChoice, Moment, TransformerAnswer } from '../../../engine/supply/transformer/index.ts'

/** What the page asks of the worker. */
export interface FieldRequest {
  readonly id: number
  readonly supply: Supply
  readonly condition: ConditionId
}

/** What the worker answers, part by part, the quickest first; parts of an overtaken request may never come. */
export type FieldReply = { readonly id: number } & (
  | { readonly part: 'answer'; readonly value: Result<TransformerAnswer> }
  | { readonly part: 'maps'; readonly value: Readonly<Record<Moment, FieldMap>> }
  | { readonly part: 'choices'; readonly value: readonly ConductorChoice[] }
  | { readonly part: 'gap'; readonly value: GapLoss | null }
)
