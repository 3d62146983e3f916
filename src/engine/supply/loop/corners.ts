import {
  type FeedbackPath,
  type FeedbackValues,
  type FlybackStage,
  type Load,
  modulatorOf,
  type PowerStage,
  powerStage,
} from '../../loop/index.ts'
import type { Condition, ConditionId } from '../condition.ts'
import type { Design } from '../design.ts'
import type { ConditionReadings, Running } from '../evaluation.ts'
import { type Lean, leanInWords, leans, typicalLean } from './lean.ts'
import { loadsOf, pathOf, stageAt } from './stage-at.ts'

/** One mix of mains, load, load kind, temperature, age and optocoupler, with everything that the loop needs there. */
export interface Corner {
  readonly name: string
  readonly condition: ConditionId
  readonly lean: Lean
  readonly load: Load
  readonly stage: FlybackStage
  readonly small: PowerStage
  readonly path: FeedbackPath
}

/** Everything but the values round the reference. */
export type Feedback = FeedbackValues & {
  readonly senseAfterChoke: boolean
  readonly ledFeedAfterChoke: boolean
}

const loadInWords: Record<Load['kind'], string> = {
  resistor: 'resistive load',
  'constant-current': 'constant-current load',
  'constant-power': 'constant-power load',
  battery: 'battery',
}

/** Conditions at which the loop is looked at: it regulates, every pulse comes, and something is drawn. */
export const loopRuns = (c: ConditionReadings): c is Running =>
  c.runs &&
  c.condition.kind === 'steady' &&
  c.condition.corner === 'typical' &&
  c.condition.load !== null &&
  c.condition.load > 0 &&
  c.mode !== 'skip'

/** One corner; null where the averaged stage has no working point. */
function cornerAt(
  d: Design,
  feedback: Feedback,
  running: Running,
  lean: Lean,
  load: Load,
  known?: { readonly stage: FlybackStage; readonly small: PowerStage },
): Corner | null {
  const stage = known?.stage ?? stageAt(d, running, lean, load)
  const small = known?.small ?? powerStage(stage, modulatorOf(d.parts.switcher))
  if (!small.ok) return null
  const { switcher } = d.parts
  const drive =
    switcher.control.style === 'voltage-mode'
      ? small.point.duty / switcher.maximumDuty.typical
      : small.point.primary_Apeak / switcher.currentLimit_A.typical
  return {
    name: nameOf(running.condition, lean, load),
    condition: running.condition.id,
    lean,
    load,
    stage,
    small,
    path: pathOf(d, feedback, feedback, lean, drive),
  }
}

const nameOf = (c: Condition, lean: Lean, load: Load): string =>
  `${c.label}, ${leanInWords(lean)}, ${loadInWords[load.kind]}`

/** All corners of a design: inputs and loads by load kind, temperature, age and transfer ratio. */
export function cornersOf(
  d: Design,
  feedback: Feedback,
  conditions: readonly ConditionReadings[],
  which: readonly Lean[] = leans,
): Corner[] {
  const corners: Corner[] = []
  for (const running of conditions.filter(loopRuns))
    for (const load of loadsOf(d.need)) {
      const shared = new Map<string, { stage: FlybackStage; small: PowerStage }>()
      for (const lean of which) {
        const key = `${lean.temperature} ${lean.aged}`
        const corner = cornerAt(d, feedback, running, lean, load, shared.get(key))
        if (corner === null) continue
        shared.set(key, corner)
        corners.push(corner)
      }
    }
  return corners
}

/** The loop with typical parts at a condition, at the first kind of load. */
export function typicalCorner(d: Design, feedback: Feedback, running: Running): Corner | null {
  return cornerAt(d, feedback, running, typicalLean, loadsOf(d.need)[0]!)
}
