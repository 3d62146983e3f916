import { type LinearForm, transient, type Waveforms } from '../circuit/index.ts'
import type { Design } from '../supply/design.ts'
import { cornerById } from './corner.ts'
import { runCorner } from './corner-run.ts'
import type { StageCycleFailure } from './cycle.ts'
import { type CycleFigures, cycleFigures } from './figures.ts'
import type { StageParameters } from './parameters.ts'
import { pointAt } from './point.ts'
import { stageForms } from './probes.ts'

/** Waveforms of a few repeating cycles at a corner, with the figures of one. Plain data. */
export interface StageWave {
  readonly ok: true
  readonly corner: string
  readonly waveforms: Waveforms
  readonly figures: CycleFigures
  readonly period_s: number
  readonly repeatsAfter: number
  readonly parameters: StageParameters
}

export type StageWaveFailure =
  | StageCycleFailure
  | { readonly ok: false; readonly code: 'no-corner' | 'no-working-point'; readonly message: string }

const mostPoints = 400_000

/** The stage at a corner as a scope would show it, `cycles` long (2 when left out), from the start of a pulse. */
export function stageWave(d: Design, corner: string, cycles = 2): StageWave | StageWaveFailure {
  const found = cornerById.get(corner)
  if (found === undefined)
    return { ok: false, code: 'no-corner', message: `there is no corner called ${corner}` }
  const point = pointAt(d, found)
  if (point === null)
    return { ok: false, code: 'no-working-point', message: `no working point at ${found.label}` }
  const run = runCorner(d, point)
  if (!run.ok) return run
  const p = run.parameters
  const probes: Record<string, LinearForm> = stageForms(p)
  const recorded = transient(run.circuit, {
    start: run.state,
    span_s: cycles * run.period_s,
    knobs: run.knobs,
    probes,
    waveforms: {
      from_s: 0,
      to_s: Number.MAX_VALUE,
      probes: Object.keys(probes),
      pointsPerRing: 16,
      points: mostPoints,
    },
  })
  if (!recorded.ok) return recorded
  const { time_s, columns } = recorded.waveforms!
  return {
    ok: true,
    corner,
    waveforms: { time_s: time_s.map((t) => t - run.state.time_s), columns },
    figures: cycleFigures(run),
    period_s: run.period_s,
    repeatsAfter: run.repeatsAfter,
    parameters: p,
  }
}
