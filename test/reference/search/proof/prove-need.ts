import { supplyText } from '../../../../src/engine/file/file.ts'
import { openSupply } from '../../../../src/engine/file/open.ts'
import { assessWhole } from '../../../../src/engine/limits/index.ts'
import { starterDrawer } from '../../../../src/engine/parts/starter/index.ts'
import {
  type Answer,
  chooseProved,
  type Effort,
  offersOf,
  searchAll,
  searchOptions,
  searchSpace,
  supplyOfOffer,
} from '../../../../src/engine/search/index.ts'
import {
  cornerById,
  gatherProof,
  proveGroup,
  type StageCycleRun,
  spoils,
  stageDeck,
} from '../../../../src/engine/stage/index.ts'
import type { Design } from '../../../../src/engine/supply/design.ts'
import type { Evaluation } from '../../../../src/engine/supply/evaluation.ts'
import type { Need } from '../../../../src/engine/supply/need.ts'
import { type Columns, runDeck } from './simulator.ts'

/** One thing that the simulator was asked about one supply at one corner. */
export interface Check {
  readonly what: 'drain' | 'output' | 'trip' | 'corner' | 'limits'
  readonly corner: string
  /** Room left as a part of what is allowed; below zero is a violation. */
  readonly room: number
  readonly reading: number
  readonly allowed: number
  readonly note?: string
}

export interface ProvedSupply {
  readonly chosenFor: string
  readonly core: string
  readonly switcher: string
  readonly weakest: { readonly id: string; readonly margin_percent: number }
  readonly checks: readonly Check[]
  /** Corners that have no even pulse train to simulate, because the chip leaves pulses out. */
  readonly skipping: readonly string[]
}

export interface ProvedNeed {
  readonly index: number
  readonly need: Need
  /** Supplies on the front, and those of them that the solved circuit refused. */
  readonly offered: number
  readonly refused: number
  readonly supplies: readonly ProvedSupply[]
}

/** Corners that are simulated: where current, drain and output are each at their worst. */
export const provedCorners = [
  'minimum-valley-100-power-warm',
  'maximum-crest-100-flux-warm',
  'maximum-crest-10-typical-cold',
  'overload-maximum',
  'short-maximum',
] as const

/** Cycles that are simulated, from the solved one on. */
const cycles = 12
/** Mean of the output against what it is set to: regulated by a reference of 0.5 to 1 %. */
const mostOff = 0.01
/** At any instant, ripple included; usual for logic supplies, common practice, no source. */
const mostAway = 0.05
/** What 0.1 and 10 µF across the probe leave of the rectifier's ringing, as ripple is measured; common practice, no source. */
const probe_Hz = 500e3

/** The narrowest margin, the least loss and the smallest of what is shown. */
function chosenOf(shown: readonly Answer[]): { answer: Answer; chosenFor: string }[] {
  const least = (of: (a: Answer) => number): Answer | undefined => [...shown].sort((a, b) => of(a) - of(b))[0]
  const all = [
    { answer: least((a) => a.limit.margin), chosenFor: 'narrowest margin' },
    { answer: least((a) => a.exactLoss_W), chosenFor: 'least loss' },
    { answer: least((a) => a.measures.size_cm3), chosenFor: 'smallest' },
  ]
  return all.flatMap(({ answer, chosenFor }, i) =>
    answer && all.findIndex((o) => o.answer === answer) === i ? [{ answer, chosenFor }] : [],
  )
}

/** Answers shown of a front. */
const shownAnswers = 9

/** Searches the starter drawer for a need, and simulates what is offered at its corners. */
export async function proveNeed(index: number, need: Need, effort: Effort): Promise<ProvedNeed> {
  const made = searchSpace(need, starterDrawer, searchOptions(effort))
  if (!made.ok) return { index, need, offered: 0, refused: 0, supplies: [] }
  const space = made.value
  const { front } = searchAll(space)
  const { answers, refused } = chooseProved(space, front, shownAnswers)
  const supplies: ProvedSupply[] = []
  for (const { answer, chosenFor } of chosenOf(answers)) {
    const [offer] = offersOf(space, [answer])
    const file = supplyText(supplyOfOffer(space, offer!))
    const opened = openSupply(new TextEncoder().encode(file))
    if (!opened.ok) throw new Error(opened.problems[0]!.message)
    const judged = assessWhole(opened.value)
    if (!judged.ok) throw new Error(judged.problems[0]!.message)
    const { evaluation } = judged.value
    const checks: Check[] = judged.value.limits
      .filter((limit) => !limit.holds)
      .map(({ id, margin, reading, rating }) => ({
        what: 'limits',
        corner: id,
        room: margin,
        reading,
        allowed: rating,
      }))
    const skipping: string[] = []
    for (const corner of provedCorners) {
      const found = await proveCorner(evaluation, corner)
      if (found === 'skips') skipping.push(corner)
      else checks.push(...found)
    }
    supplies.push({
      chosenFor,
      core: offer!.core,
      switcher: offer!.switcher,
      weakest: { id: answer.limit.id, margin_percent: answer.measures.margin_percent },
      checks,
      skipping,
    })
  }
  return { index, need, offered: front.length, refused: refused.length, supplies }
}

async function proveCorner(evaluation: Evaluation, corner: string): Promise<Check[] | 'skips'> {
  const { design } = evaluation
  const deck = stageDeck(design, corner, cycles)
  if (!deck.ok) {
    const note = unevenHeld(evaluation, corner)
    if (note === null) return 'skips'
    return [
      {
        what: 'corner',
        corner,
        room: -1,
        reading: 0,
        allowed: 0,
        note: `${deck.code}: ${deck.message}${note}`,
      },
    ]
  }
  const columns = await runDeck(deck.text)
  const kind = cornerById.get(corner)!.kind
  const checks = [drainCheck(design, corner, columns)]
  if (kind === 'steady') checks.push(outputCheck(design, corner, columns))
  if (corner === 'minimum-valley-100-power-warm') checks.push(tripCheck(corner, deck.run, columns))
  return checks
}

/**
 * Why a corner without a train of even pulses is no light load that the stage holds all the same under its own feedback, by
 * the project's own circuit; null where it is.
 */
function unevenHeld(evaluation: Evaluation, id: string): string | null {
  const corner = cornerById.get(id)!
  if (corner.kind !== 'steady' || (corner.load ?? 0) >= 1) return ''
  const { findings } = gatherProof(evaluation, proveGroup(evaluation.design, [corner]))
  const harm = findings.find(spoils)
  return harm ? ` ${harm.sentence}` : null
}

/** No drain voltage over its rating. */
function drainCheck({ parts }: Design, corner: string, { drain_V }: Columns): Check {
  const reading = drain_V.reduce((a, b) => Math.max(a, b))
  const allowed = parts.switcher.drainVoltage_V
  return { what: 'drain', corner, room: 1 - reading / allowed, reading, allowed }
}

/** Mean within a per cent of what was set, and never further away than a twentieth. */
function outputCheck({ need }: Design, corner: string, { time, output_V }: Columns): Check {
  const mean_V = meanOf(time, output_V)
  const off = Math.abs(mean_V / need.output_V - 1)
  const seen = throughProbe(time, output_V)
  const away = Math.max(...extremes(seen).map((v) => Math.abs(v / need.output_V - 1)))
  const room = Math.min(1 - off / mostOff, 1 - away / mostAway)
  const worst = 1 - off / mostOff < 1 - away / mostAway
  return {
    what: 'output',
    corner,
    room,
    reading: worst ? mean_V : need.output_V * (1 + away),
    allowed: need.output_V * (1 + (worst ? mostOff : mostAway)),
  }
}

/**
 * Peak of the switch current below the least current limit at the lowest valley, once the chip's blanking of the leading
 * edge is over: what its delay adds is allowed, what its slope compensation takes by the end of the pulse is not.
 */
function tripCheck(corner: string, { parameters: p, period_s }: StageCycleRun, columns: Columns): Check {
  const { time, drain_V, primary_A } = columns
  const on = drain_V.map((v): number => (v < 0.1 * p.bulk_V ? 1 : 0))
  let reading = 0
  let since_s = 0
  primary_A.forEach((current_A, i) => {
    if (i > 0 && on[i - 1] === 0) since_s = time[i]!
    if (on[i] === 1 && time[i]! - since_s > p.chip.blanking_s) reading = Math.max(reading, current_A)
  })
  const on_s = period_s * meanOf(time, on)
  const rise_A_per_s = p.bulk_V / (p.magnetising_H + p.primary.leakage_H)
  const { limit_A, delay_s, slope_A_per_s } = p.chip
  const allowed = limit_A + rise_A_per_s * delay_s - slope_A_per_s * Math.max(0, on_s - delay_s)
  return { what: 'trip', corner, room: 1 - reading / allowed, reading, allowed }
}

function meanOf(time: readonly number[], values: readonly number[]): number {
  let area = 0
  for (let i = 1; i < time.length; i++)
    area += 0.5 * (values[i]! + values[i - 1]!) * (time[i]! - time[i - 1]!)
  return area / (time.at(-1)! - time[0]!)
}

/** A voltage after a single pole. */
function throughProbe(time: readonly number[], values: readonly number[]): number[] {
  let seen = values[0]!
  return values.map((value, i) => {
    if (i > 0) seen += (value - seen) * -Math.expm1(-2 * Math.PI * probe_Hz * (time[i]! - time[i - 1]!))
    return seen
  })
}

const extremes = (values: readonly number[]): [number, number] => [
  values.reduce((a, b) => Math.min(a, b)),
  values.reduce((a, b) => Math.max(a, b)),
]
