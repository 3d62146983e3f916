import type { Part } from '../../parts/part.ts'
import { formatQuantity } from '../../quantity/index.ts'
import { resolve } from '../../supply/evaluate.ts'
import type { Supply } from '../../supply/supply.ts'
import type { Answer } from '../front.ts'
import { type Measures, partsToBuy } from '../measures.ts'
import { supplyFrom } from '../space/candidate.ts'
import type { Space } from '../space/space.ts'
import { listText } from './words.ts'

/** An answer as it is shown: what it is built of, and what makes it different from the others. */
export interface Offer {
  readonly answer: Answer
  readonly core: string
  readonly switcher: string
  /** `45 : 4 turns, split primary, primary of 0.236 mm and secondary of 3 x insulated 0.5 mm wire in hand, gap of 0.43 mm`. */
  readonly winding: string
  readonly difference: string
  /** Names of parts that are not at hand. */
  readonly buy: readonly string[]
}

type Measure = keyof Measures

/** What it is to be the best of all in one measure. */
const bestWords: Readonly<Record<Measure, string>> = {
  loss_W: 'the least loss',
  size_cm3: 'the smallest transformer',
  buy: 'the least to buy',
  margin_percent: 'the widest margin',
  effort: 'the easiest to wind',
}
const measures = Object.keys(bestWords) as Measure[]

/** Less is better, whatever the measure. */
const badness = (m: Measures, measure: Measure): number =>
  measure === 'margin_percent' ? -m[measure] : m[measure]

/** How far apart two answers are in a measure, as a part of its whole range over the front. */
const scaleOf = (front: readonly Answer[]) => {
  const spans = Object.fromEntries(
    measures.map((measure) => {
      const all = front.map((a) => badness(a.measures, measure))
      return [measure, Math.max(1e-9, Math.max(...all) - Math.min(...all))]
    }),
  ) as Record<Measure, number>
  return (a: Answer, b: Answer, measure: Measure): number =>
    (badness(a.measures, measure) - badness(b.measures, measure)) / spans[measure]
}

/**
 * The answers that show a front best: the best of each measure first, then always the one farthest from those chosen;
 * all of them where they are few.
 */
export function chooseFew(front: readonly Answer[], count: number): readonly Answer[] {
  const ordered = [...front].sort(
    (a, b) => a.measures.size_cm3 - b.measures.size_cm3 || a.exactLoss_W - b.exactLoss_W,
  )
  if (ordered.length <= count) return ordered
  const apart = scaleOf(front)
  const distance = (a: Answer, b: Answer): number =>
    Math.hypot(...measures.map((measure) => apart(a, b, measure)))
  const chosen = new Set<Answer>()
  for (const measure of measures) {
    const best = ordered.reduce((a, b) =>
      badness(b.measures, measure) < badness(a.measures, measure) ? b : a,
    )
    if (chosen.size < count) chosen.add(best)
  }
  while (chosen.size < count) {
    const next = ordered
      .filter((a) => !chosen.has(a))
      .map((a) => ({ a, far: Math.min(...[...chosen].map((b) => distance(a, b))) }))
      .reduce((x, y) => (y.far > x.far ? y : x))
    chosen.add(next.a)
  }
  return ordered.filter((a) => chosen.has(a))
}

const gains: Readonly<Record<Measure, (by: number) => string>> = {
  loss_W: (by) => `${by.toFixed(by < 1 ? 2 : 1)} W less loss`,
  size_cm3: (by) => `${by.toFixed(by < 10 ? 1 : 0)} cm³ smaller`,
  buy: (by) => `${by} ${by === 1 ? 'part' : 'parts'} less to buy`,
  margin_percent: (by) => `${by} % more margin`,
  effort: (by) => `${by} ${by === 1 ? 'step' : 'steps'} less winding`,
}
const costs: Readonly<Record<Measure, (by: number) => string>> = {
  loss_W: (by) => `${by.toFixed(by < 1 ? 2 : 1)} W more loss`,
  size_cm3: (by) => `${by.toFixed(by < 10 ? 1 : 0)} cm³ more`,
  buy: (by) => `${by} ${by === 1 ? 'part' : 'parts'} more to buy`,
  margin_percent: (by) => `${by} % less margin`,
  effort: (by) => `${by} ${by === 1 ? 'step' : 'steps'} more winding`,
}

/** What makes an answer different, in a sentence: what it is best of all in, else what it trades against its neighbour. */
function differenceOf(space: Space, answer: Answer, shown: readonly Answer[]): string {
  const others = shown.filter((a) => a !== answer)
  if (others.length === 0) return 'The only answer that nothing outdoes.'
  const best = measures.filter((measure) =>
    others.every((a) => badness(a.measures, measure) > badness(answer.measures, measure)),
  )
  if (best.length > 0) {
    const words = listText(best.map((measure) => bestWords[measure]))
    return `${words.charAt(0).toUpperCase()}${words.slice(1)} of these.`
  }
  const apart = scaleOf(shown)
  const nearest = others
    .map((a) => ({ a, far: Math.hypot(...measures.map((measure) => apart(answer, a, measure))) }))
    .reduce((x, y) => (y.far < x.far ? y : x)).a
  const moved = measures
    .map((measure) => ({
      measure,
      by: badness(answer.measures, measure) - badness(nearest.measures, measure),
      size: Math.abs(apart(answer, nearest, measure)),
    }))
    .filter(({ by }) => Math.abs(by) > 1e-9)
    .sort((a, b) => b.size - a.size)
  const better = moved.filter(({ by }) => by < 0).slice(0, 2)
  const worse = moved.filter(({ by }) => by > 0).slice(0, 2)
  const name = `answer ${shown.indexOf(nearest) + 1}, ${nameOf(space, nearest.build.places.core)}`
  if (better.length === 0 || worse.length === 0) return `As good as ${name}, in all that counts.`
  const gain = listText(better.map(({ measure, by }) => gains[measure](-by)))
  const cost = listText(worse.map(({ measure, by }) => costs[measure](by)))
  return `Against ${name}: ${gain}, for ${cost}.`
}

const nameOf = (space: Space, id: string): string => {
  const part = space.parts.get(id)
  return part?.kind === 'core' ? part.size : (part?.name ?? id)
}

/** Wire in few words: `3 x 0.4 mm`. */
const wireText = (part: Part | undefined): string => {
  if (part?.kind !== 'wire') return ''
  if (part.construction === 'litz')
    return `litz ${part.strands} x ${Number((part.strand_m * 1e3).toPrecision(3))} mm`
  if (part.construction === 'foil') return `${Number((part.thickness_m * 1e3).toPrecision(3))} mm foil`
  const bare = `${Number((part.bare_m * 1e3).toPrecision(3))} mm`
  return part.construction === 'triple-insulated' ? `insulated ${bare}` : bare
}

/** One winding's wire, and how many are wound together: `3 x insulated 0.5 mm wire in hand`. */
const handText = (part: Part | undefined, inHand: number): string =>
  inHand > 1 ? `${inHand} x ${wireText(part)} wire in hand` : `${wireText(part)} wire`

/** How an answer is wound: turns, split, margins, wires in hand and gap. */
function windingOf(space: Space, { build }: Answer): string {
  const { places, transformer: t } = build
  const coil = resolve(supplyFrom(space, build, ''))
  const inHand = (side: 'primaryInHand' | 'secondaryInHand') => (coil.ok ? coil.value.transformer[side] : 1)
  return [
    `${t.primaryTurns} : ${t.secondaryTurns} turns`,
    ...(t.splitPrimary ? ['split primary'] : []),
    ...(t.insulation === 'margins' ? ['margins'] : []),
    `primary of ${handText(space.parts.get(places.primaryWire), inHand('primaryInHand'))} and secondary of ${handText(space.parts.get(places.secondaryWire), inHand('secondaryInHand'))}`,
    ...(coil.ok ? [`gap of ${formatQuantity(coil.value.transformer.gap_m, 'm', 2)}`] : []),
  ].join(', ')
}

/** The chosen answers as they are shown. */
export function offersOf(space: Space, shown: readonly Answer[]): Offer[] {
  return shown.map((answer) => {
    const { places } = answer.build
    return {
      answer,
      core: nameOf(space, places.core),
      switcher: nameOf(space, places.switcher),
      winding: windingOf(space, answer),
      difference: differenceOf(space, answer, shown),
      buy: partsToBuy(space, answer.build).map((id) => space.parts.get(id)?.name ?? id),
    }
  })
}

/** The supply that an offer opens as. */
export const supplyOfOffer = (space: Space, { answer, core, switcher }: Offer): Supply =>
  supplyFrom(
    space,
    answer.build,
    `${space.need.output_V} V ${space.need.output_A} A on ${core}, ${switcher}`.slice(0, 120),
  )
