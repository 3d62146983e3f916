/** The drawer answers: what can be built for a need, why not the rest, and what else a build can serve. */
export type { Change } from './answers/change-list.ts'
export { type Changed, cheapestChanges, type Mending, type Miss } from './answers/changes.ts'
export { type MostPower, mostPower } from './answers/most-power.ts'
export { chooseFew, type Offer, offersOf, supplyOfOffer } from './answers/offer.ts'
export { withProposal } from './answers/proposed.ts'
export {
  type Chosen,
  chooseProved,
  proveShare,
  takeVerdicts,
  type Verdicts,
} from './answers/proved.ts'
export { type Substitute, substitutes } from './answers/substitutes.ts'
export { answersText, refusedText, thoroughness } from './answers/text.ts'
export { type WhyNot, whyNot } from './answers/why-not.ts'
export { type Answer, keyOf, mergeFronts } from './front.ts'
export type { Measures } from './measures.ts'
export type { Exchange } from './range/exchanges.ts'
export { type Family, families, familiesOf, serversOf } from './range/family.ts'
export { type RangeCell, type RangeMap, rangeMap } from './range/range-map.ts'
export { type Retarget, retarget, type Verdict } from './range/retarget.ts'
export { type TurnStep, turnSteps } from './range/turn-steps.ts'
export { type Effort, type SearchOptions, searchOptions } from './space/options.ts'
export { type Space, searchSpace } from './space/space.ts'
export { alongside, beginSearch, mergeStates, type SearchState, searchAll, searchStep } from './step.ts'
