import { assess, withLoopLimits } from '../../limits/index.ts'
import type { Drawer } from '../../parts/part.ts'
import type { Build } from '../../supply/build.ts'
import type { Answer } from '../front.ts'
import { measuresOf } from '../measures.ts'
import { proposeSupply } from '../propose.ts'
import { supplyFrom } from '../space/candidate.ts'
import type { Space } from '../space/space.ts'
import type { SearchState } from '../step.ts'

const drawerOf = ({ parts, atHand }: Space): Drawer => ({
  format: 'gapwright-drawer',
  version: 1,
  name: 'drawer',
  entries: [...parts.values()].map((part) => ({ part, quantity: atHand.get(part.id) ?? null })),
})

/** A build as an answer; null where it breaks a limit. */
function answerOf(space: Space, build: Build): Answer | null {
  const fast = assess(supplyFrom(space, build, ''))
  if (!fast.ok) return null
  const whole = withLoopLimits(fast.value)
  const measured = whole.holds ? measuresOf(space, build, whole) : null
  if (measured === null) return null
  const { exactLoss_W, ...measures } = measured
  const { id, title, margin } = whole.givesFirst
  return { build, measures, exactLoss_W, limit: { id, title, margin } }
}

/** The supply proposed for the need as an answer, its turns as they come out; null where it breaks a limit. */
function proposedAnswer(space: Space): Answer | null {
  const proposed = proposeSupply(space.need, drawerOf(space))
  if (!proposed.ok) return null
  const read = assess(proposed.value)
  if (!read.ok) return null
  const { build } = proposed.value
  const { primaryTurns, secondaryTurns } = read.value.evaluation.design.transformer
  return answerOf(space, { ...build, transformer: { ...build.transformer, primaryTurns, secondaryTurns } })
}

/**
 * A search that went through everything and found nothing, with the supply that is proposed for the need where that one
 * holds every limit: the steps of turns, ripple and wires in hand may miss a supply which mending by hand would reach.
 * Any other search as it is.
 */
export function withProposal(space: Space, state: SearchState): SearchState {
  const { only } = space.options
  if (!state.done || state.front.length > 0 || only?.core !== undefined || only?.switcher !== undefined)
    return state
  const answer = proposedAnswer(space)
  if (answer === null) return state
  const { core, former, switcher } = answer.build.places
  const found = (at: number): readonly number[] => (at < 0 ? [] : [at])
  return {
    ...state,
    front: [answer],
    cores: found(space.cores.findIndex((c) => c.core.id === core && c.former.id === former)),
    switchers: found(space.switchers.findIndex((s) => s.id === switcher)),
  }
}
