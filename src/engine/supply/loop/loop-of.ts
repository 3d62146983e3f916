import { cornerMargins, type Margins, type MarginsFailure, stageWarnings } from '../../loop/index.ts'
import type { ConditionId } from '../condition.ts'
import { at, type Evaluation } from '../evaluation.ts'
import { type Corner, cornersOf, type Feedback, typicalCorner } from './corners.ts'

export interface CornerWithMargins extends Corner {
  readonly margins: Margins | MarginsFailure
}

/** The loop of a supply at every corner. */
export interface Loop {
  readonly corners: readonly CornerWithMargins[]
  /** Least phase margin, least gain margin (rising or falling gain), lowest and highest crossover; null without corners. */
  readonly worst: {
    readonly phase: CornerWithMargins
    readonly gain: CornerWithMargins
    readonly slowest: CornerWithMargins
    readonly fastest: CornerWithMargins
  } | null
  /** Light loads at which the chip skips pulses: the loop is not linear there. */
  readonly skips: readonly ConditionId[]
  /** Least `(1 + mc/m1) D' - 1/2` of peak-current control in continuous mode, with its corner; null where there is none. */
  readonly subharmonic: { readonly room: number; readonly corner: Corner } | null
  readonly warnings: readonly string[]
}

/**
 * Margins of the loop of an evaluated supply at every corner: three inputs, three loads, kinds of load, cold and hot,
 * new and aged capacitors (-20 %, twice the resistance), weak and strong optocoupler. `feedback` tries other values
 * than those of the design.
 */
export function loopOf(evaluation: Evaluation, feedback: Feedback = evaluation.design.feedback): Loop {
  const { design } = evaluation
  const bare = cornersOf(design, { ...feedback }, evaluation.conditions)
  const judged = cornerMargins(bare.map((c) => ({ name: c.name, stage: c.small, path: c.path })))
  const corners = bare.map((c, k): CornerWithMargins => ({ ...c, margins: judged.corners[k]!.margins }))
  const warnings = new Set(bare.flatMap((c) => stageWarnings(c.small).map((w) => w.message)))
  return {
    corners,
    worst: worstOf(corners),
    skips: evaluation.conditions.flatMap((c) => (c.runs && c.mode === 'skip' ? [c.condition.id] : [])),
    subharmonic: leastRoom(corners),
    warnings: [...warnings],
  }
}

/** The corner of typical parts at one condition; null where it does not run as a loop. */
export function typicalAt(
  evaluation: Evaluation,
  id: ConditionId,
  feedback: Feedback = evaluation.design.feedback,
): Corner | null {
  const running = at(evaluation, id)
  if (running === null || running.mode === 'skip' || running.condition.kind !== 'steady') return null
  if (running.readings.output_A <= 0) return null
  return typicalCorner(evaluation.design, { ...feedback }, running)
}

/** The loop with typical parts at one condition; null where it does not run as a loop. */
export function loopAt(
  evaluation: Evaluation,
  id: ConditionId,
  feedback: Feedback = evaluation.design.feedback,
): CornerWithMargins | null {
  const corner = typicalAt(evaluation, id, feedback)
  if (corner === null) return null
  const [judged] = cornerMargins([{ name: corner.name, stage: corner.small, path: corner.path }]).corners
  return { ...corner, margins: judged!.margins }
}

/** Room before the phase of -180 degrees meets gain 1, whichever way the gain moves. */
export const gainRoom_dB = (m: Margins): number => Math.min(m.gainMargin_dB, m.gainReduction_dB)

function worstOf(corners: readonly CornerWithMargins[]): Loop['worst'] {
  let worst: Loop['worst'] = null
  for (const c of corners) {
    if (!c.margins.ok) continue
    if (worst === null) {
      worst = { phase: c, gain: c, slowest: c, fastest: c }
      continue
    }
    const m = c.margins
    const of = (other: CornerWithMargins): Margins => other.margins as Margins
    if (m.phaseMargin_deg < of(worst.phase).phaseMargin_deg) worst = { ...worst, phase: c }
    if (gainRoom_dB(m) < gainRoom_dB(of(worst.gain))) worst = { ...worst, gain: c }
    if (m.crossover_Hz < of(worst.slowest).crossover_Hz) worst = { ...worst, slowest: c }
    if (m.crossover_Hz > of(worst.fastest).crossover_Hz) worst = { ...worst, fastest: c }
  }
  return worst
}

function leastRoom(corners: readonly Corner[]): Loop['subharmonic'] {
  let least: Loop['subharmonic'] = null
  for (const corner of corners) {
    const q = corner.small.features.halfFrequencyQ
    if (q === null) continue
    const room = 1 / (Math.PI * q)
    if (least === null || room < least.room) least = { room, corner }
  }
  return least
}
