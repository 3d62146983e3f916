import { assess, type Limit } from '../../limits/index.ts'
import { cornerById, gatherProof, type ProvedCorner, proveGroup } from '../../stage/index.ts'
import { type Answer, keyOf } from '../front.ts'
import { supplyFrom } from '../space/candidate.ts'
import type { Space } from '../space/space.ts'
import { chooseFew } from './offer.ts'

/** Corners at which the closed form is furthest from the circuit, or nearest to harm; those in a row start from each other. */
const decisive = [
  ['overload-maximum'],
  ['overload-minimum'],
  ['short-maximum'],
  ['minimum-valley-100-power-warm', 'minimum-valley-100-flux-warm'],
  ['maximum-crest-100-typical-warm'],
].map((group) => group.map((id) => cornerById.get(id)!))

const proved = new WeakMap<Space, Map<string, Limit | null>>()

/** What the solved circuit says of some builds, each by its key: plain data, to be worked out by another worker. */
export type Verdicts = readonly (readonly [string, Limit | null])[]

const verdictsOn = (space: Space): Map<string, Limit | null> => {
  const known = proved.get(space) ?? new Map<string, Limit | null>()
  proved.set(space, known)
  return known
}

/** Proves a share of the answers that `chooseProved` would prove first. */
export const proveShare = (
  space: Space,
  front: readonly Answer[],
  count: number,
  share: number,
  of: number,
): Verdicts =>
  chooseFew(front, count)
    .filter((_, index) => index % of === share)
    .map((answer) => [keyOf(answer.build), brokenWhenSolved(space, answer)])

/** Takes over what others have proved of a space. */
export function takeVerdicts(space: Space, verdicts: Verdicts): void {
  const known = verdictsOn(space)
  for (const [key, limit] of verdicts) known.set(key, limit)
}

/**
 * What an answer breaks when its stage is solved as a circuit at the corners that decide; null where every limit still
 * holds. Tenths of a second; worked out once.
 */
function brokenWhenSolved(space: Space, { build }: Answer): Limit | null {
  const known = verdictsOn(space)
  const key = keyOf(build)
  let broken = known.get(key)
  if (broken === undefined) {
    const assessed = assess(supplyFrom(space, build, ''))
    if (!assessed.ok) return null
    const { evaluation } = assessed.value
    const solved = decisive.flatMap((group) => proveGroup(evaluation.design, group))
    const limits = gatherProof(evaluation, solved).limits.map(({ limit }) => limit)
    broken = pierced(limits, solved) ?? limits.find((limit) => !limit.holds) ?? null
    known.set(key, broken)
  }
  return broken
}

/** The limit on the drain where a solved corner passes it: at the crest itself, which readings take on average. */
function pierced(limits: readonly Limit[], solved: readonly ProvedCorner[]): Limit | null {
  const drain = limits.find(({ id }) => id === 'switcher.drain-voltage')
  if (!drain) return null
  const reading = Math.max(0, ...solved.flatMap((c) => (c.ok ? [c.figures.drainPeak_V] : [])))
  const margin = (drain.rating - reading) / drain.rating
  return margin < 0 ? { ...drain, reading, margin, holds: false } : null
}

export interface Chosen {
  readonly answers: readonly Answer[]
  /** Answers of the closed form that the solved circuit refuses, each with what it breaks. */
  readonly refused: readonly { readonly answer: Answer; readonly limit: Limit }[]
}

/**
 * The answers that show a front best, each proved on the solved circuit: what breaks a limit there is left out, and
 * others take its place.
 */
export function chooseProved(space: Space, front: readonly Answer[], count: number): Chosen {
  const refused: { answer: Answer; limit: Limit }[] = []
  let left = front
  for (;;) {
    const answers = chooseFew(left, count)
    const broken = answers.flatMap((answer) => {
      const limit = brokenWhenSolved(space, answer)
      return limit ? [{ answer, limit }] : []
    })
    if (broken.length === 0) return { answers, refused }
    refused.push(...broken)
    left = left.filter((a) => !broken.some(({ answer }) => answer === a))
  }
}
