import {
  buildCircuit,
  type Circuit,
  type CircuitState,
  current,
  difference,
  type LinearForm,
  type Probe,
  type RunFailureCode,
  type TransientResult,
  type TransientRun,
  transient,
  voltage,
  type Waveforms,
} from '../../circuit/index.ts'
import type { Design } from '../../supply/design.ts'
import type { StageParameters } from '../parameters.ts'
import { outputNode } from '../power-stage.ts'
import { clampVoltage } from '../probes.ts'
import { type RegulatedOptions, regulatedStage } from '../regulated.ts'
import { chipMemory, Sameness, withRestartSooner } from './chip-state.ts'
import { Junction } from './junction.ts'
import { type RunTrace, TraceBook, type TraceRow } from './trace.ts'
import { LimitWatch, type PassedLimit, runLimits } from './watch.ts'

/** Clock periods between two looks at the run, and those of one bin. */
const clocksEach = 40
const clocksPerBin = 4
/** A paused chip is looked at this often. */
const pausedLook_s = 4e-3
/** A run goes on this long after a part has been destroyed, to show it. */
const afterDestruction_s = 0.2e-3
/** What is left of a try that is passed over, to be followed into the pause. */
const beforePause_s = 1e-3
/** Most clock periods with pulses in one run. */
const mostClocks = 20_000
/** Part of the output voltage within which it counts as settled. */
export const settledWithin = 0.02
/** Clock periods on show before and after the event, and at the end. */
const shownClocks = { before: 2, after: 8 }

export interface FollowOptions extends RegulatedOptions {
  readonly span_s: number
  /** The run goes on to here while it has not settled (or, with `untilPaused`, not paused). */
  readonly most_s?: number
  readonly untilPaused?: boolean
  /** A try that has become the same from look to look is passed over up to its end. */
  readonly skipsSameness?: boolean
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
  /** Pulses that were followed, and those that the current limit ended. */
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

/**
 * Follows a regulated stage in time, cycle by cycle, watching its ratings. Memory stays bounded whatever the span.
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
  return new Follower(d, p, options, built.circuit, cancelled).run(onProgress)
}

/** One run, look by look. */
class Follower {
  private readonly p: StageParameters
  private readonly options: FollowOptions
  private readonly circuit: Circuit
  private readonly cancelled: (() => boolean) | undefined
  private readonly clock_s: number
  private readonly binned: Readonly<Record<string, Probe>>
  private readonly shown: Readonly<Record<string, LinearForm>>
  private readonly watch: LimitWatch
  private readonly book = new TraceBook()
  private readonly junction: Junction
  private readonly sameness = new Sameness()
  private state: CircuitState | undefined
  /** Time passed over. */
  private skipped_s = 0
  private clocks = 0
  private pausedAt_s = Number.POSITIVE_INFINITY
  private event: Waveforms | null = null
  private before = { pulses: 0, trips: 0 }
  private last_V: number
  private lastLoss_W = 0

  constructor(
    d: Design,
    p: StageParameters,
    options: FollowOptions,
    circuit: Circuit,
    cancelled: (() => boolean) | undefined,
  ) {
    this.p = p
    this.options = options
    this.circuit = circuit
    this.cancelled = cancelled
    this.clock_s = 1 / p.frequency_Hz
    const output = voltage(outputNode(p))
    this.binned = {
      drain: voltage('d'),
      current: current('Lm'),
      primary: current('Rpri'),
      output,
      reverse: difference(voltage('out'), voltage('s3')),
      loss: { product: [voltage('d'), current('S1')] },
    }
    this.shown = {
      drain_V: voltage('d'),
      primary_A: current('Rpri'),
      secondary_A: current('Rsec'),
      clamp_V: clampVoltage(p),
      output_V: output,
    }
    this.watch = new LimitWatch(runLimits(d, p))
    this.junction = new Junction(d.parts.switcher, options.junction_C)
    this.last_V = options.from === 'running' ? p.output_V : 0
  }

  /** Time of the run, with what was passed over. */
  private get now_s(): number {
    return (this.state?.time_s ?? 0) + this.skipped_s
  }

  private get end_s(): number {
    const { span_s, most_s, untilPaused } = this.options
    const settled = untilPaused
      ? Number.isFinite(this.pausedAt_s)
      : Math.abs(this.last_V / this.p.output_V - 1) < settledWithin
    return settled ? span_s : (most_s ?? span_s)
  }

  run(onProgress: ((fraction: number) => void) | undefined): Followed | FollowFailure {
    while (
      this.now_s < this.end_s - 0.5 * this.clock_s &&
      this.now_s < this.watch.destroyedAt_s + afterDestruction_s
    ) {
      if (this.cancelled?.() === true)
        return { ok: false, code: 'cancelled', message: `cancelled at ${this.now_s} s` }
      if (this.clocks > mostClocks)
        return {
          ok: false,
          code: 'step-budget',
          message: `the run was given up after ${this.clocks} clock periods`,
        }
      const failure = this.look()
      if (failure !== null) return failure
      onProgress?.(Math.min(1, this.now_s / this.end_s))
    }
    return this.result()
  }

  /** Follows the circuit for some clock periods, or through a stretch of a pause. */
  private look(): FollowFailure | null {
    const { options, clock_s } = this
    const paused = this.state !== undefined && chipMemory(this.state).paused
    const span_s = paused
      ? Math.min(pausedLook_s, Math.max(clock_s, this.end_s - this.now_s))
      : clocksEach * clock_s
    const from_s = this.now_s
    const holds = options.event_s >= from_s && options.event_s < from_s + span_s
    const bin_s = paused ? span_s : clocksPerBin * clock_s
    const run = this.advance(span_s, {
      probes: holds ? { ...this.binned, ...this.shown } : this.binned,
      cycles: { period_s: bin_s, probes: Object.keys(this.binned) },
      ...(holds
        ? this.picture(
            options.event_s - shownClocks.before * clock_s,
            options.event_s + shownClocks.after * clock_s,
          )
        : {}),
    })
    if (!run.ok) return { ok: false, code: run.code, message: run.message }
    this.state = run.final
    const memory = chipMemory(run.final)
    if (!paused) this.clocks += clocksEach
    if (holds) {
      this.event = run.waveforms ?? null
      this.before = memory
    }
    if (memory.paused && !Number.isFinite(this.pausedAt_s)) this.pausedAt_s = this.now_s
    const last = this.keep(run, from_s, bin_s)
    this.junction.judge()
    const peak_A = run.cycles.current!.maximum.reduce((a, b) => Math.max(a, b), 0)
    if (options.skipsSameness && this.sameness.see(peak_A, memory.tries, paused)) this.passOver(last)
    return null
  }

  private advance(span_s: number, more: Partial<Parameters<typeof transient>[1]>): TransientResult {
    return transient(this.circuit, {
      ...(this.state ? { start: this.state } : {}),
      span_s,
      knobs: { hot: this.junction.hot ? 1 : 0 },
      limits: { events: 2_000_000, steps: 200_000_000 },
      ...(this.cancelled ? { cancelled: this.cancelled } : {}),
      ...more,
    })
  }

  /** Waveforms between two times of the circuit. */
  private picture(from_s: number, to_s: number) {
    const probes = Object.keys(this.shown)
    return { waveforms: { from_s: Math.max(0, from_s), to_s, probes, pointsPerRing: 10, points: 60_000 } }
  }

  private slow(name: string): number {
    const at = this.circuit.stateNames.indexOf(name)
    return at < 0 ? 0 : this.state!.values[at]!
  }

  /** Writes the bins of one look down and watches the limits. */
  private keep(run: TransientRun, from_s: number, bin_s: number): TraceRow {
    const { clamp } = this.p
    const clamp_V = clamp.style === 'avalanche' ? clamp.breakdown_V : this.slow('Ccl V')
    const bias_V = this.slow('Cbias V')
    const control_A = 1e-3 * this.slow('Cctl V')
    const { drain, current: magnetising, primary, output, reverse, loss } = run.cycles
    let row!: TraceRow
    for (let i = 0; i < drain!.average.length; i++) {
      this.junction.pass(loss!.average[i]!, bin_s)
      row = {
        time_s: from_s + (i + 1) * bin_s,
        drainMost_V: drain!.maximum[i]!,
        currentMost_A: magnetising!.maximum[i]!,
        primaryMost_A: primary!.maximum[i]!,
        outputLeast_V: output!.minimum[i]!,
        outputMost_V: output!.maximum[i]!,
        output_V: output!.average[i]!,
        reverseMost_V: reverse!.maximum[i]!,
        clamp_V,
        bias_V,
        control_A,
        junction_C: this.junction.temperature_C,
      }
      this.book.add(row)
      this.watch.see(row)
      this.lastLoss_W = loss!.average[i]!
    }
    this.last_V = row.output_V
    return row
  }

  /** Passes over the rest of a try but for its end. */
  private passOver(last: TraceRow): void {
    const state = this.state!
    const left_s = chipMemory(state).fed_s + this.p.chip.restartTry_s - state.time_s - beforePause_s
    if (left_s < clocksEach * this.clock_s) return
    this.state = withRestartSooner(state, left_s)
    this.skipped_s += left_s
    this.junction.pass(this.lastLoss_W, left_s)
    this.book.add({ ...last, time_s: this.now_s, junction_C: this.junction.temperature_C })
  }

  private result(): Followed {
    const memory = this.state ? chipMemory(this.state) : { tries: 1, trips: 0, pulses: 0 }
    const tail = this.state
      ? this.advance(shownClocks.after * this.clock_s, {
          probes: this.shown,
          ...this.picture(0, Number.MAX_VALUE),
        })
      : null
    return {
      ok: true,
      trace: this.book.close(),
      passed: [...this.watch.passed.values()].sort((a, b) => a.time_s - b.time_s),
      end_s: this.now_s,
      destroyed: Number.isFinite(this.watch.destroyedAt_s),
      tries: memory.tries,
      pausedAt_s: this.pausedAt_s,
      pulses: memory.pulses,
      trips: memory.trips,
      pulsesAfter: memory.pulses - this.before.pulses,
      tripsAfter: memory.trips - this.before.trips,
      detail: { event: this.event, end: tail?.ok ? (tail.waveforms ?? null) : null },
      parameters: this.p,
    }
  }
}
