import {
  buildCircuit,
  type Circuit,
  type CircuitState,
  current,
  difference,
  type LinearForm,
  type Probe,
  type RunFailureCode,
  transient,
  voltage,
  type Waveforms,
} from '../../circuit/index.ts'
import type { Design } from '../../supply/design.ts'
import type { StageParameters } from '../parameters.ts'
import { outputNode } from '../power-stage.ts'
import { type RegulatedOptions, regulatedStage } from '../regulated.ts'
import { type RunTrace, TraceBook, type TraceRow } from './trace.ts'
import { LimitWatch, type PassedLimit, runLimits } from './watch.ts'

/** Clock periods between two looks at the run, and those of one bin. */
const clocksEach = 40
const clocksPerBin = 4
/** A paused chip is looked at this often. */
const pausedLook_s = 4e-3
/** A run goes on this long after a part has been destroyed, to show it. */
const afterDestruction_s = 0.2e-3
/** Junction of a power package against its case, typical of the trade, no source. */
const junction_s = 30e-3
/** Most clock periods with pulses in one run. */
const mostClocks = 20_000
/** Part of the output voltage within which it counts as settled. */
export const settledWithin = 0.02

export interface FollowOptions extends RegulatedOptions {
  readonly span_s: number
  /** The run goes on to here while it has not settled (or, with `untilPaused`, not paused). */
  readonly most_s?: number
  readonly untilPaused?: boolean
  /** What it is about: waveforms are kept around it. */
  readonly event_s: number
  /** Junction temperature at the start. */
  readonly junction_C: number
}

/** Waveforms over a few clock periods; names as in `stageForms`. */
export interface Detail {
  readonly event: Waveforms | null
  readonly end: Waveforms | null
}

export interface Followed {
  readonly ok: true
  readonly trace: RunTrace
  readonly passed: readonly PassedLimit[]
  readonly end_s: number
  /** Cut short because a part was destroyed. */
  readonly destroyed: boolean
  /** Tries of the chip, and when it paused first; infinite when it never did. */
  readonly tries: number
  readonly pausedAt_s: number
  /** Pulses, and those that the current limit ended. */
  readonly pulses: number
  readonly trips: number
  /** Pulses and trips after the event. */
  readonly pulsesAfter: number
  readonly tripsAfter: number
  readonly detail: Detail
  readonly parameters: StageParameters
}

export interface FollowFailure {
  readonly ok: false
  readonly code: RunFailureCode | 'bad-circuit'
  readonly message: string
}

const stateOf = (circuit: Circuit, state: CircuitState, name: string): number => {
  const at = circuit.stateNames.indexOf(name)
  return at < 0 ? 0 : state.values[at]!
}

/** Memory of the chip in a state. */
const chipMemory = (state: CircuitState) => {
  const memory = state.controllers[0]?.memory ?? {}
  const number = (key: string) => (typeof memory[key] === 'number' ? memory[key] : 0)
  return {
    paused: memory.paused === true,
    tries: number('tries'),
    trips: number('trips'),
    pulses: number('pulses'),
  }
}

/**
 * Follows a regulated stage in time, cycle by cycle, watching its ratings. Memory stays bounded whatever the span. The
 * junction warms with the chip's loss between looks, and beyond its shutdown the chip is held off until it has cooled
 * by its hysteresis.
 * Errors: typed, with budgets for events, steps and clock periods.
 */
export function follow(
  d: Design,
  p: StageParameters,
  options: FollowOptions,
  onProgress?: (fraction: number) => void,
  cancelled?: () => boolean,
): Followed | FollowFailure {
  const built = buildCircuit(regulatedStage(d, p, options))
  if (!built.ok) return { ok: false, code: 'bad-circuit', message: built.problems[0]!.message }
  const { circuit } = built
  const node = outputNode(p)
  const binned: Record<string, Probe> = {
    drain: voltage('d'),
    current: current('Lm'),
    primary: current('Rpri'),
    output: voltage(node),
    reverse: difference(voltage('out'), voltage('s3')),
    loss: { product: [voltage('d'), current('S1')] },
  }
  const shown: Record<string, LinearForm> = {
    drain_V: voltage('d'),
    primary_A: current('Rpri'),
    secondary_A: current('Rsec'),
    clamp_V: difference(voltage('c2'), voltage('bus')),
    output_V: voltage(node),
  }
  const watch = new LimitWatch(runLimits(d, p))
  const book = new TraceBook()
  const clock_s = 1 / p.frequency_Hz
  const { switcher } = d.parts
  const shutdown_C = switcher.thermalShutdown_C.typical
  let junction_C = options.junction_C
  const case_C = options.junction_C
  let hot = false
  let state: CircuitState | undefined
  let clocks = 0
  let pausedAt_s = Number.POSITIVE_INFINITY
  let event: Waveforms | null = null
  let before = { pulses: 0, trips: 0 }
  let last_V = options.from === 'running' ? p.output_V : 0
  const limits = { events: 2_000_000, steps: 200_000_000 }

  for (;;) {
    const now = state?.time_s ?? 0
    const paused = state !== undefined && chipMemory(state).paused
    const settled = options.untilPaused
      ? pausedAt_s < Number.POSITIVE_INFINITY
      : Math.abs(last_V / p.output_V - 1) < settledWithin
    const end_s = settled ? options.span_s : (options.most_s ?? options.span_s)
    if (now >= end_s - 0.5 * clock_s || now > watch.destroyedAt_s + afterDestruction_s) break
    if (cancelled?.() === true) return { ok: false, code: 'cancelled', message: `cancelled at ${now} s` }
    if (clocks > mostClocks)
      return { ok: false, code: 'step-budget', message: `the run was given up after ${clocks} clock periods` }
    const span_s = paused ? Math.min(pausedLook_s, Math.max(clock_s, end_s - now)) : clocksEach * clock_s
    const holds = options.event_s >= now && options.event_s < now + span_s
    const run = transient(circuit, {
      ...(state ? { start: state } : {}),
      span_s,
      knobs: { hot: hot ? 1 : 0 },
      probes: holds ? { ...binned, ...shown } : binned,
      cycles: { period_s: paused ? span_s : clocksPerBin * clock_s, probes: Object.keys(binned) },
      ...(holds
        ? {
            waveforms: {
              from_s: Math.max(now, options.event_s - 2 * clock_s),
              to_s: Math.min(now + span_s, options.event_s + 8 * clock_s),
              probes: Object.keys(shown),
              pointsPerRing: 10,
              points: 60_000,
            },
          }
        : {}),
      limits,
      ...(cancelled ? { cancelled } : {}),
    })
    if (!run.ok) return { ok: false, code: run.code, message: run.message }
    if (!paused) clocks += clocksEach
    if (holds) {
      event = run.waveforms ?? null
      before = chipMemory(run.final)
    }
    state = run.final
    const memory = chipMemory(state)
    if (memory.paused && !Number.isFinite(pausedAt_s)) pausedAt_s = state.time_s
    const bins = run.cycles.drain!.average.length
    const bin_s = span_s / bins
    const clamp_V = p.clamp.style === 'avalanche' ? p.clamp.breakdown_V : stateOf(circuit, state, 'Ccl V')
    const settle = -Math.expm1(-bin_s / junction_s)
    for (let i = 0; i < bins; i++) {
      const rise_K = switcher.junctionToCase_K_per_W * Math.max(0, run.cycles.loss!.average[i]!)
      junction_C += (case_C + rise_K - junction_C) * settle
      last_V = run.cycles.output!.average[i]!
      const row: TraceRow = {
        time_s: now + (i + 1) * bin_s,
        drainMost_V: run.cycles.drain!.maximum[i]!,
        currentMost_A: run.cycles.current!.maximum[i]!,
        primaryMost_A: run.cycles.primary!.maximum[i]!,
        outputLeast_V: run.cycles.output!.minimum[i]!,
        outputMost_V: run.cycles.output!.maximum[i]!,
        output_V: last_V,
        reverseMost_V: run.cycles.reverse!.maximum[i]!,
        clamp_V,
        bias_V: stateOf(circuit, state, 'Cbias V'),
        control_A: 1e-3 * stateOf(circuit, state, 'Cctl V'),
        junction_C,
      }
      book.add(row)
      watch.see(row)
    }
    hot = hot ? junction_C > shutdown_C - switcher.thermalHysteresis_K : junction_C > shutdown_C
    onProgress?.(Math.min(1, state.time_s / end_s))
  }
  const memory = state ? chipMemory(state) : { tries: 1, trips: 0, pulses: 0 }
  const tail = state
    ? transient(circuit, {
        start: state,
        span_s: 8 * clock_s,
        probes: shown,
        waveforms: {
          from_s: 0,
          to_s: Number.MAX_VALUE,
          probes: Object.keys(shown),
          pointsPerRing: 10,
          points: 60_000,
        },
        limits,
      })
    : null
  return {
    ok: true,
    trace: book.close(),
    passed: [...watch.passed.values()].sort((a, b) => a.time_s - b.time_s),
    end_s: state?.time_s ?? 0,
    destroyed: Number.isFinite(watch.destroyedAt_s),
    tries: memory.tries,
    pausedAt_s,
    pulses: memory.pulses,
    trips: memory.trips,
    pulsesAfter: memory.pulses - before.pulses,
    tripsAfter: memory.trips - before.trips,
    detail: { event, end: tail?.ok ? (tail.waveforms ?? null) : null },
    parameters: p,
  }
}
