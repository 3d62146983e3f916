import type { Build } from '../supply/build.ts'
import { asGood, type Measures, sameMeasures } from './measures.ts'

/** One supply worth building. */
export interface Answer {
  readonly build: Build
  readonly measures: Measures
  readonly exactLoss_W: number
  /** The limit that gives first. */
  readonly limit: { readonly id: string; readonly title: string; readonly margin: number }
}

/** Order among answers with the same measures: the least loss, then by name, so that the front does not depend on order. */
function before(a: Answer, b: Answer): boolean {
  if (a.exactLoss_W !== b.exactLoss_W) return a.exactLoss_W < b.exactLoss_W
  return keyOf(a.build) < keyOf(b.build)
}

/** A name for a build that no other build of the same space has. */
export function keyOf({ places, bulkCount, outputCount, transformer: t, clamp }: Build): string {
  return [
    places.core,
    places.former,
    places.switcher,
    places.rectifier,
    places.bulkCapacitor,
    bulkCount,
    places.outputCapacitor,
    outputCount,
    t.primaryTurns,
    t.secondaryTurns,
    t.rippleRatio,
    t.gap_m,
    t.splitPrimary,
    t.insulation,
    places.primaryWire,
    places.secondaryWire,
    clamp.style,
  ].join('|')
}

/** True where some answer is at least as good in everything as measures that may still get worse. */
export const outdone = (front: readonly Answer[], measures: Measures, exactLoss_W: number): boolean =>
  front.some(
    (a) =>
      asGood(a.measures, measures) &&
      (!sameMeasures(a.measures, measures) || a.exactLoss_W < exactLoss_W * (1 - 1e-4)),
  )

/** The front with one more answer: those that it outdoes leave, and it stays out where one outdoes it. */
export function withAnswer(front: readonly Answer[], answer: Answer): readonly Answer[] {
  for (const a of front) {
    const equal = sameMeasures(a.measures, answer.measures)
    if (equal ? !before(answer, a) : asGood(a.measures, answer.measures)) return front
  }
  return [...front.filter((a) => !asGood(answer.measures, a.measures)), answer]
}

/** Fronts found apart, as one. */
export const mergeFronts = (...fronts: readonly (readonly Answer[])[]): readonly Answer[] =>
  fronts.flat().reduce(withAnswer, [] as readonly Answer[])
