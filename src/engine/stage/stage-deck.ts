import { type LinearForm, type SpiceDeck, spiceDeck } from '../circuit/index.ts'
import type { Design } from '../supply/design.ts'
import { cornerById } from './corner.ts'
import { type StageCycleFailure, type StageCycleRun, solveCycle } from './cycle.ts'
import { stageParameters } from './parameters.ts'
import { pointAt } from './point.ts'
import { stageForms } from './probes.ts'

export type StageDeck =
  | { readonly ok: true; readonly text: string; readonly run: StageCycleRun }
  | Extract<SpiceDeck, { ok: false }>
  | StageCycleFailure
  | { readonly ok: false; readonly code: 'no-corner' | 'no-working-point'; readonly message: string }

/**
 * One corner of a design as a plain SPICE deck that starts in its solved repeating cycle: `cycles` of it (30 when left
 * out), with drain, winding currents, clamp and output as saved nodes `probe_...`.
 * Errors: typed; an unknown corner, one without working point, one without a repeating cycle.
 */
export function stageDeck(d: Design, corner: string, cycles = 30): StageDeck {
  const found = cornerById.get(corner)
  if (found === undefined)
    return { ok: false, code: 'no-corner', message: `there is no corner called ${corner}` }
  const point = pointAt(d, found)
  if (point === null)
    return { ok: false, code: 'no-working-point', message: `no working point at ${found.label}` }
  const run = solveCycle(stageParameters(d, point), found.kind)
  if (!run.ok) return run
  return deckOf(run, cycles)
}

/** The deck of a solved cycle; other probes may be asked. */
export function deckOf(
  run: StageCycleRun,
  cycles: number,
  probes: Readonly<Record<string, LinearForm>> = stageForms(run.parameters),
): StageDeck {
  const span_s = cycles * run.period_s
  const deck = spiceDeck(run.circuit, {
    span_s,
    state: run.state,
    knobs: run.knobs,
    probes,
    step_s: 5e-9,
  })
  return deck.ok ? { ok: true, text: deck.text, run } : deck
}
