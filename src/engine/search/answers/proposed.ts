import { assess, withLoopLimits } from '../../limits/index.ts'
import type { Drawer } from '../../parts/part.ts'
import type { Build } from '../../supply/build.ts'
import type { Supply } from '../../supply/supply.ts'
import type { Answer } from '../front.ts'
import { measuresOf } from '../measures.ts'
import { proposeSupply } from '../propose.ts'
import { supplyFrom } from '../space/candidate.ts'
import type { Space } from '../space/space.ts'
import type { SearchState } from '../step.ts'
import { cheapestChanges } from './changes.ts'
import { chooseProved } from './proved.ts'

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

/** A supply as an answer, its turns as they come out; null where it breaks a limit. */
function fromSupply(space: Space, supply: Supply): Answer | null {
  const read = assess(supply)
  if (!read.ok) return null
  const { primaryTurns, secondaryTurns } = read.value.evaluation.design.transformer
  const { build } = supply
  return answerOf(space, { ...build, transformer: { ...build.transformer, primaryTurns, secondaryTurns } })
}

/** The supply proposed for the need, or else what a change or a few make of it, as an answer that is proved. */
function proposedAnswer(space: Space): Answer | null {
  const drawer = drawerOf(space)
  const proposed = proposeSupply(space.need, drawer)
  if (!proposed.ok) return null
  const first = fromSupply(space, proposed.value)
  const candidates = first
    ? [first]
    : cheapestChanges(proposed.value, drawer).answers.map(({ supply }) => fromSupply(space, supply))
  return candidates.find((answer) => answer !== null && holdsProved(space, [answer])) ?? null
}

const holdsProved = (space: Space, front: readonly Answer[]): boolean =>
  chooseProved(space, front, 1).answers.length > 0

/**
 * A search that went through everything and found nothing that holds on the solved circuit too, with the supply that
 * is proposed for the need, mended where that takes a few changes, where that one does: the steps of turns, ripple and
 * wires in hand may miss a supply which mending by hand would reach. Any other search as it is.
 */
export function withProposal(space: Space, state: SearchState): SearchState {
  const { only } = space.options
  if (!state.done || only?.core !== undefined || only?.switcher !== undefined) return state
  if (holdsProved(space, state.front)) return state
  const answer = proposedAnswer(space)
  if (answer === null) return state
  const { core, former, switcher } = answer.build.places
  const found = (before: readonly number[], at: number): readonly number[] =>
    at < 0 || before.includes(at) ? before : [...before, at].sort((a, b) => a - b)
  return {
    ...state,
    front: [...state.front, answer],
    proposed: true,
    cores: found(
      state.cores,
      space.cores.findIndex((c) => c.core.id === core && c.former.id === former),
    ),
    switchers: found(
      state.switchers,
      space.switchers.findIndex((s) => s.id === switcher),
    ),
  }
}
