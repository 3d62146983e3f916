import type { Margins } from '../../loop/index.ts'
import type { ConditionId } from '../../supply/condition.ts'
import type { Evaluation } from '../../supply/evaluation.ts'
import {
  type CornerWithMargins,
  gainRoom_dB,
  type Loop,
  loadRippleOf,
  trimOf,
} from '../../supply/loop/index.ts'
import type { Limit } from '../limit.ts'

/** Least phase margin at the worst corner; common practice, no source. */
export const leastPhase_deg = 30
/** Least gain margin at the worst corner; common practice, no source. */
const leastGain_dB = 6
/** Part of the switching frequency, and of the right-half-plane zero, that crossover stays below. */
const crossoverShare = { switching: 1 / 5, zero: 1 / 2 }
/** Least `(1 + mc/m1) D' - 1/2`: a Q of 4 at half the switching frequency; common practice, no source. */
const leastSubharmonicRoom = 1 / (4 * Math.PI)
/** Untrimmed output over all tolerances; common practice of logic supplies, no source. */
const mostDeviation = 0.05

type Wording = Pick<Limit, 'id' | 'title' | 'spot' | 'basis' | 'sense' | 'unit' | 'why' | 'raise' | 'band'>

/**
 * Limits that need the loop at every corner. They take milliseconds and not the microseconds of the others, so that
 * they stand apart: whoever looks at one supply merges them into the ranking, a search through thousands does not.
 */
export function loopLimits(evaluation: Evaluation, loop: Loop): Limit[] {
  const found: Limit[] = []
  const put = (w: Wording, reading: number, rating: number, condition: ConditionId | null) => {
    const room = w.sense === 'at-most' ? rating - reading : reading - rating
    const margin = Math.max(-9.99, Math.min(9.99, room / Math.abs(rating)))
    found.push({ ...w, reading, rating, margin, holds: margin >= 0, discrete: false, condition })
  }
  if (loop.worst) {
    const { phase, gain } = loop.worst
    put(words.phase, of(phase).phaseMargin_deg, leastPhase_deg, phase.condition)
    const room_dB = gainRoom_dB(of(gain))
    if (Number.isFinite(room_dB)) put(words.gain, room_dB, leastGain_dB, gain.condition)
    const crossover = tightestCrossover(loop)
    if (crossover) put(words.crossover, crossover.at_Hz, crossover.most_Hz, crossover.condition)
  }
  if (loop.subharmonic)
    put(words.subharmonic, loop.subharmonic.room, leastSubharmonicRoom, loop.subharmonic.corner.condition)
  const ripple = loadRippleOf(evaluation, 'minimum-100')
  if (ripple?.matters) put(words.ripple, ripple.load_Vpp, evaluation.design.need.ripple_Vpp, 'minimum-100')
  const trim = trimOf(evaluation.design)
  if (!trim.trimmed) put(words.deviation, trim.deviation, mostDeviation, null)
  return found
}

const of = (c: CornerWithMargins): Margins => c.margins as Margins

function tightestCrossover(loop: Loop): { at_Hz: number; most_Hz: number; condition: ConditionId } | null {
  let tightest: { at_Hz: number; most_Hz: number; condition: ConditionId } | null = null
  for (const { margins, stage, small, condition } of loop.corners) {
    if (!margins.ok) continue
    const most_Hz = Math.min(
      crossoverShare.switching * stage.frequency_Hz,
      crossoverShare.zero * small.features.rightHalfPlaneZero_Hz,
    )
    const at_Hz = margins.crossover_Hz
    if (tightest === null || at_Hz / most_Hz > tightest.at_Hz / tightest.most_Hz)
      tightest = { at_Hz, most_Hz, condition }
  }
  return tightest
}

const words = {
  phase: {
    id: 'loop.phase-margin',
    title: 'Phase margin of the loop',
    spot: 'compensationResistor',
    basis: 'rule',
    sense: 'at-least',
    unit: '°',
    why: 'The output rings after every load step; below zero it sings all the time.',
    raise: 'The suggested network in the view of the loop, a peak-current chip, or less primary inductance.',
    band: 0.15,
  },
  gain: {
    id: 'loop.gain-margin',
    title: 'Gain margin of the loop',
    spot: 'compensationResistor',
    basis: 'rule',
    sense: 'at-least',
    unit: 'dB',
    why: 'A stronger optocoupler or another load makes the loop sing.',
    raise: 'The suggested network in the view of the loop, or an optocoupler with less spread.',
    band: 0.15,
  },
  crossover: {
    id: 'loop.crossover',
    title: 'Crossover of the loop',
    spot: 'ledResistor',
    basis: 'rule',
    sense: 'at-most',
    unit: 'Hz',
    why: 'Close to the switching frequency or the right-half-plane zero no network holds its phase.',
    raise: 'A larger LED resistor, or a smaller compensation resistor.',
    band: 0.15,
  },
  subharmonic: {
    id: 'loop.subharmonic',
    title: 'Room before subharmonic oscillation',
    spot: 'switcher',
    basis: 'rule',
    sense: 'at-least',
    unit: '',
    why: 'Wide and narrow pulses take turns; the transformer hisses at half the switching frequency.',
    raise: 'A lower reflected voltage, a chip with more slope compensation, or a higher lowest input.',
    band: 0.1,
  },
  ripple: {
    id: 'output.ripple-all',
    title: 'Whole ripple at the load',
    spot: 'output',
    basis: 'need',
    sense: 'at-most',
    unit: 'V',
    why: 'What was asked for.',
    raise:
      'Output capacitors of lower series resistance, a choke, or more loop gain at twice the mains frequency.',
    band: 0.3,
  },
  deviation: {
    id: 'output.worst-case',
    title: 'Spread of the output over all tolerances',
    spot: 'dividerTop',
    basis: 'rule',
    sense: 'at-most',
    unit: '%',
    why: 'Reference, resistors and their drift all lean one way.',
    raise: 'A reference of 0.5 %, resistors of 0.1 %, or a trimmer.',
    band: 0.05,
  },
} as const satisfies Record<string, Wording>
