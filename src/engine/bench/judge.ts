import type { AsBuiltField, LogEntry, Measured } from '../supply/bench-log.ts'
import type { Symptom } from './faults/types.ts'
import type { Check, Plan, Stage, StageId } from './plan/types.ts'

/** How a reading stands against its check; `too early` is a live one taken while its stage is locked. */
export type Standing = 'in band' | 'low' | 'high' | 'as expected' | 'other answer' | 'stop' | 'too early'

/** One check with the last reading taken against it. */
export interface Judged {
  readonly check: Check
  readonly entry: LogEntry | null
  /** Null where nothing was read yet. */
  readonly standing: Standing | null
  /** What a wrong value means, or what to do at once; null where all is well. */
  readonly suspect: string | null
}

export interface StageProgress {
  readonly id: StageId
  readonly state: 'locked' | 'open' | 'done'
  /** Stages that have to be ticked first. */
  readonly waitsFor: readonly StageId[]
  readonly read: number
  readonly of: number
}

/** A measured value that may take the place of the planned one. */
export interface AsBuiltOffer {
  readonly field: AsBuiltField
  readonly check: Check
  readonly measured: Measured
}

export interface Judgement {
  readonly checks: readonly Judged[]
  /** Those out of band, at a stop or read too early, in the order of the bench. */
  readonly flags: readonly Judged[]
  readonly stages: readonly StageProgress[]
  /** First check of the first open stage that can be done and has no reading. */
  readonly next: Check | null
  readonly asBuilt: readonly AsBuiltOffer[]
  /** All readings, for the fault finder. */
  readonly symptoms: readonly Symptom[]
}

/**
 * Judges a bench log against a plan. The last entry of each check counts. An answer to a check without a number is kept
 * as the entry's note. `ticked` holds the ids of stages (and checks) that the builder has ticked; a stage is locked until
 * every stage before it is ticked, and a live one for as long as the plan forbids power.
 */
export function judge(plan: Plan, log: readonly LogEntry[], ticked: readonly string[] = []): Judgement {
  const last = new Map<string, LogEntry>()
  for (const entry of log) last.set(entry.check, entry)
  const ticks = new Set(ticked)
  const stages = plan.stages.map((stage) => progressOf(stage, last, ticks, plan.doNotPower.length > 0))
  const locked = new Set(stages.filter((s) => s.state === 'locked').map((s) => s.id))
  const all = [...plan.stages.flatMap((s) => s.checks), ...plan.inTrouble]
  const checks = all.map((check): Judged => {
    const entry = last.get(check.id) ?? null
    const { standing, suspect } = judgeEntry(check, entry, check.live && locked.has(check.stage))
    return { check, entry, standing, suspect }
  })
  const open = stages.filter((s) => s.state === 'open').map((s) => s.id)
  const next = plan.stages
    .filter((s) => open.includes(s.id))
    .flatMap((s) => s.checks)
    .find((c) => !last.has(c.id) && !ticks.has(c.id) && c.chosen.state !== 'skipped')
  return {
    checks,
    flags: checks.filter((j) => j.suspect !== null),
    stages,
    next: next ?? null,
    asBuilt: checks.flatMap(({ check, entry }) =>
      check.asBuilt !== null && entry?.value != null && entry.value > 0
        ? [
            {
              field: check.asBuilt,
              check,
              measured: {
                value: entry.value,
                instrument: entry.instrument,
                frequency_Hz: null,
                accuracy: null,
              },
            },
          ]
        : [],
    ),
    symptoms: checks.flatMap(({ check, entry }): Symptom[] => {
      if (entry === null) return []
      if (check.state !== null)
        return entry.note === '' ? [] : [{ check: check.id, value: answerOf(check, entry) }]
      return entry.value === null ? [] : [{ check: check.id, value: entry.value }]
    }),
  }
}

/** Answer kept in an entry: the id or the words of it. */
function answerOf(check: Check, entry: LogEntry): string {
  const said = entry.note.trim()
  const known = check.state?.answers.find((a) => a.id === said || a.label === said)
  return known?.id ?? said
}

function progressOf(
  stage: Stage,
  last: ReadonlyMap<string, LogEntry>,
  ticks: ReadonlySet<string>,
  forbidden: boolean,
): StageProgress {
  const waitsFor = stage.after.filter(
    (id) => !ticks.has(id) || (forbidden && stage.live && id === 'transformer'),
  )
  const doable = stage.checks.filter((c) => c.chosen.state !== 'skipped')
  const read = doable.filter((c) => last.has(c.id) || ticks.has(c.id)).length
  const state = waitsFor.length > 0 ? 'locked' : ticks.has(stage.id) ? 'done' : 'open'
  return { id: stage.id, state, waitsFor, read, of: doable.length }
}

function judgeEntry(
  check: Check,
  entry: LogEntry | null,
  locked: boolean,
): { standing: Standing | null; suspect: string | null } {
  if (entry === null) return { standing: null, suspect: null }
  if (locked)
    return {
      standing: 'too early',
      suspect:
        'Read before its stage was unlocked: tick the stages before it first, they are what makes it less dangerous.',
    }
  if (check.state !== null) {
    const said = answerOf(check, entry)
    if (said === '') return { standing: null, suspect: null }
    if (said === check.state.expect) return { standing: 'as expected', suspect: null }
    const { stop } = check
    if (stop !== null && (stop.answers?.includes(said) ?? true))
      return { standing: 'stop', suspect: stop.text }
    return { standing: 'other answer', suspect: 'Not what a healthy supply does: ask the fault finder.' }
  }
  const { value } = entry
  if (value === null || check.expected === null) return { standing: null, suspect: null }
  const { stop, expected } = check
  const isHigh = expected.high !== null && value > expected.high
  const isLow = expected.low !== null && value < expected.low
  const meaning = isHigh ? check.suspectHigh : check.suspectLow
  const stopped =
    stop !== null &&
    ((stop.above !== null && value > stop.above) || (stop.below !== null && value < stop.below))
  if (stopped) return { standing: 'stop', suspect: [stop.text, meaning].filter(Boolean).join(' ') }
  if (isHigh) return { standing: 'high', suspect: meaning || 'Above its band.' }
  if (isLow) return { standing: 'low', suspect: meaning || 'Below its band.' }
  return { standing: 'in band', suspect: null }
}
