import { worstCaseOutput } from '../../loop/divider.ts'
import type { LampModel } from '../../mains/lamp.ts'
import type { Unit as UnitOfMeasure } from '../../quantity/index.ts'
import type { AsBuiltField } from '../../supply/bench-log.ts'
import type { Design } from '../../supply/design.ts'
import type { Evaluation } from '../../supply/evaluation.ts'
import type { Spot } from '../../supply/refs.ts'
import type { PlannedBand } from '../../supply/transformer/planned-bands.ts'
import type { Readings } from '../unit/readings.ts'
import type { Check, ScopeSettings, StageId, StopRule, Way } from './types.ts'

/** What the plan of one supply is made from. */
export interface PlanFacts {
  readonly evaluation: Evaluation
  /** What a healthy unit reads. */
  readonly healthy: Readings
  readonly lamp: LampModel
}

interface SpecBase {
  readonly id: string
  readonly stage: StageId
  readonly what: string
  readonly spot: Spot
  readonly side: Check['side']
  readonly live: boolean
  /** Points of the probe: fixed, or as the winding of this supply has them. */
  readonly at: string | ((d: Design) => string) | null
  readonly reference: string | ((d: Design) => string) | null
  readonly ways: readonly Way[]
  /** What is risked by leaving it out. */
  readonly risk: string
  readonly low: string
  readonly high: string
  readonly stop: ((f: PlanFacts) => StopRule) | null
  readonly asBuilt: AsBuiltField | null
  readonly scope: ((f: PlanFacts) => ScopeSettings) | null
  /** Read only when something is wrong. */
  readonly onlyInTrouble: boolean
  readonly applies: (f: PlanFacts) => boolean
}

/** A reading that is a number: one standard deviation of a healthy unit as a part of it, and the least that counts. */
export interface NumberSpec extends SpecBase {
  readonly kind: 'number'
  readonly unit: UnitOfMeasure
  readonly spread: (f: PlanFacts) => number
  readonly floor: number
  /** What the band is made of. */
  readonly why: string
  /** Only one end of the band counts: `at least` for insulation, `at most` for ripple and heat. */
  readonly oneSided: 'at least' | 'at most' | null
  /** Band that other papers print for the same reading; null where it follows from the spread. */
  readonly planned: ((d: Design) => PlannedBand) | null
}

/** A reading that is seen, heard or counted. */
export interface StateSpec extends SpecBase {
  readonly kind: 'state'
  readonly answers: Readonly<Record<string, string>>
}

export type CheckSpec = NumberSpec | StateSpec

type Common = Partial<Omit<SpecBase, 'id' | 'what' | 'stage'>> & {
  readonly spot: Spot
  readonly ways: readonly Way[]
}

const base = (id: string, what: string, c: Common): SpecBase => ({
  side: 'primary',
  live: false,
  at: null,
  reference: null,
  risk: '',
  low: '',
  high: '',
  stop: null,
  asBuilt: null,
  scope: null,
  onlyInTrouble: false,
  applies: () => true,
  ...c,
  id,
  what,
  stage: stageOf(id),
})

/** Stage of a check by the first part of its id; checks of the full line without a load step belong to full load. */
function stageOf(id: string): StageId {
  const first = id.slice(0, id.indexOf('.'))
  if (first === 'low') return 'low-energy'
  return (first === 'line' ? 'line-100' : first) as StageId
}

/** A numeric check. */
export const number = (
  id: string,
  what: string,
  unit: UnitOfMeasure,
  spread: number | ((f: PlanFacts) => number),
  floor: number,
  c: Common & Partial<Pick<NumberSpec, 'why' | 'oneSided' | 'planned'>>,
): NumberSpec => ({
  ...base(id, what, c),
  kind: 'number',
  unit,
  spread: typeof spread === 'number' ? () => spread : spread,
  floor,
  why: c.why ?? 'part tolerances and the meter',
  oneSided: c.oneSided ?? null,
  planned: c.planned ?? null,
})

/** A check by eye, ear or count. */
export const state = (
  id: string,
  what: string,
  answers: Readonly<Record<string, string>>,
  c: Common,
): StateSpec => ({ ...base(id, what, c), kind: 'state', answers })

/** Wiring, terminals and the drop of a choke outside of the loop, as a part of the output. Common practice, no source. */
const wiring = 0.005

/** One standard deviation of the output voltage: reference at its limits, 1 % resistors, wiring. */
export function outputSpread({ evaluation: { design } }: PlanFacts): number {
  const { feedback: f, parts } = design
  const worst = worstCaseOutput(
    parts.reference.voltage_V,
    {
      top_ohm: f.dividerTop_ohm,
      bottom_ohm: f.dividerBottom_ohm + (parts.trimmer?.resistance_ohm ?? 0) / 2,
      trimmer_ohm: 0,
      tolerance: 0.01,
      trimmerTolerance: 0,
      referenceInput_A: parts.reference.inputCurrent_A,
    },
    wiring,
  )
  return (worst.maximum - worst.minimum) / 4 / worst.typical
}
