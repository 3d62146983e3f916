import {
  buildCircuit,
  type Circuit,
  current,
  type Netlist,
  type Statistics,
  type SteadyFailure,
  type SteadyRun,
  steadyState,
  transient,
  voltage,
} from '../circuit/index.ts'
import { switcherControl } from './chip.ts'
import type { Corner } from './corner.ts'
import { loadElements, type StageLoad } from './load.ts'
import { lean, type StageParameters } from './parameters.ts'
import { chipDraw, coldStart, commandSource, expectedStart, outputNode, powerStage } from './power-stage.ts'
import { stageProbes } from './probes.ts'

/** Resistance at which a bench load holds the output in an overload, and that of a short with its leads. */
const holding_ohm = 0.01
const short_ohm = 0.02

/** A repeating cycle of the stage, or the mean over many where the current limit lets none repeat. */
export interface StageCycleRun {
  readonly ok: true
  readonly circuit: Circuit
  readonly parameters: StageParameters
  readonly statistics: Readonly<Record<string, Statistics>>
  readonly state: SteadyRun['state']
  readonly knobs: Readonly<Record<string, number>>
  /** Clock periods from pulse to pulse. */
  readonly clocks: number
  readonly period_s: number
  /** Cycles after which it repeats; 0 when it does not and the figures are over many cycles. */
  readonly repeatsAfter: number
  /** True where even the shortest pulse gives too much, and the chip leaves some out unevenly. */
  readonly skips?: boolean
  /** Largest Floquet multiplier; 1 is the edge of stability. */
  readonly multiplier: number
  /** Largest relative change of a state over the cycle. */
  readonly residual: number
}

export interface StageCycleFailure {
  readonly ok: false
  readonly code: SteadyFailure['code'] | 'bad-circuit' | 'too-much-at-least'
  readonly message: string
}

const loadOf = (p: StageParameters, kind: Corner['kind']): StageLoad =>
  kind === 'overload'
    ? { kind: 'battery', voltage_V: p.output_V - holding_ohm * p.output_A, resistance_ohm: holding_ohm }
    : { kind: 'resistor', resistance_ohm: kind === 'short' ? short_ohm : p.output_V / p.output_A }

/** The stage under a command held by a knob: what a repeating cycle is solved on. */
function commandedStage(p: StageParameters, kind: Corner['kind'], clocks: number): Netlist {
  return {
    title: p.title,
    elements: [
      ...powerStage(
        p,
        kind === 'short' ? { ...coldStart, magnetising_A: 0.9 * p.chip.limit_A } : expectedStart(p),
      ),
      ...loadElements(p, loadOf(p, kind)),
      chipDraw(p),
      commandSource,
    ],
    knobs: { bulk_V: p.bulk_V, command: p.expected.duty, hot: 0 },
    controllers: [
      switcherControl({
        period_s: clocks / p.frequency_Hz,
        // one clock is the longest pulse, whatever the number of clocks between pulses
        chip: { ...p.chip, softStart_s: 0, maximumDuty: p.chip.maximumDuty / clocks },
        command: voltage('command'),
        sense: current('Rpri'),
      }),
    ],
  }
}

/** Clock periods from pulse to pulse where a chip skips pulses evenly. */
const clocksOf = (p: StageParameters, kind: Corner['kind']): number =>
  kind === 'steady' ? Math.max(1, Math.floor(p.frequency_Hz / p.expected.rate_Hz + 1e-9)) : 1

/**
 * The repeating cycle of the stage at its wanted output, or under full command at its current limit or into a short.
 * Pulses that the chip would skip are skipped evenly: one pulse every so many clocks, its width found for the wanted
 * output. `near` is a solved cycle of the same stage at another corner, from which the search starts.
 * Errors: typed; `target-out-of-reach` where limit or greatest duty stop the output short, `subharmonic` where only
 * every second or later cycle would repeat, `too-much-at-least` where even the shortest pulse gives too much.
 */
export function solveCycle(
  whole: StageParameters,
  kind: Corner['kind'],
  near?: StageCycleRun,
  cancelled?: () => boolean,
): StageCycleRun | StageCycleFailure {
  // in a short the currents that leakage and leads of the secondary shape are a few per cent, and many cycles pass
  const p = kind === 'short' ? lean(whole) : whole
  const clocks = clocksOf(p, kind)
  const built = buildCircuit(commandedStage(p, kind, clocks))
  if (!built.ok) return { ok: false, code: 'bad-circuit', message: built.problems[0]!.message }
  const { circuit } = built
  return kind === 'steady'
    ? atWantedOutput(p, circuit, clocks, near, cancelled)
    : atFullCommand(p, circuit, cancelled)
}

function atWantedOutput(
  p: StageParameters,
  circuit: Circuit,
  clocks: number,
  near: StageCycleRun | undefined,
  cancelled: (() => boolean) | undefined,
): StageCycleRun | StageCycleFailure {
  const { chip } = p
  const period_s = clocks / p.frequency_Hz
  const voltageMode = chip.style === 'voltage-mode'
  const low = voltageMode ? (1.001 * chip.minimumOnTime_s) / period_s : 0.01 * chip.limit_A
  const high = 0.999 * (voltageMode ? chip.maximumDuty / clocks : chip.limit_A)
  const expected = voltageMode
    ? p.expected.duty / clocks
    : p.expected.peak_A -
      (p.bulk_V * chip.delay_s) / p.magnetising_H +
      (chip.slope_A_per_s * p.expected.duty) / p.frequency_Hz
  const usable =
    near !== undefined &&
    near.clocks === clocks &&
    near.circuit.stateNames.length === circuit.stateNames.length
  const guess = Math.min(high, Math.max(low, usable ? near.knobs.command! : expected))
  const common = {
    period_s,
    probes: stageProbes(p),
    ...(usable ? { start: near.state, settle: 3 } : {}),
    periods: 2,
    iterations: 40,
    limits: { events: 200_000, steps: 20_000_000 },
    ...(cancelled ? { cancelled } : {}),
  } as const
  const result = steadyState(circuit, {
    ...common,
    solve: {
      knob: 'command',
      low,
      high,
      guess,
      average: voltage(outputNode(p)),
      target: p.output_V,
      tolerance: 1e-6,
    },
  })
  if (result.ok) return fromSteady(p, circuit, clocks, result)
  if (result.code !== 'target-out-of-reach') return result
  const outputAt = (command: number): number | null => {
    const run = steadyState(circuit, { ...common, knobs: { command } })
    return run.ok ? run.statistics.output_V!.average : null
  }
  const least_V = outputAt(low)
  if (least_V !== null && least_V > p.output_V)
    return {
      ok: false,
      code: 'too-much-at-least',
      message: `the shortest pulse that the chip makes lifts the output to ${least_V.toPrecision(4)} V`,
    }
  // the ring of discontinuous mode bends the output over the command, so that it may jump past what is wanted
  const most_V = outputAt(high)
  return most_V !== null && most_V > p.output_V
    ? {
        ok: false,
        code: 'no-cycle',
        message: `no single pulse repeats at ${p.output_V} V: shorter and longer ones take turns`,
      }
    : result
}

/** Cycles that pass at the current limit before it is looked whether they repeat. */
const settling = 40
/** Cycles over which figures are taken where none repeats. */
const restless = 40
/** Relative change of a state over a cycle below which it is worth looking for one that repeats. */
const nearlyAlike = 0.03

function atFullCommand(
  p: StageParameters,
  circuit: Circuit,
  cancelled: (() => boolean) | undefined,
): StageCycleRun | StageCycleFailure {
  const { chip } = p
  const knobs = { command: 1.001 * (chip.style === 'voltage-mode' ? chip.maximumDuty : chip.limit_A) }
  const period_s = 1 / p.frequency_Hz
  const common = { knobs, ...(cancelled ? { cancelled } : {}) }
  const settled = transient(circuit, { ...common, span_s: settling * period_s })
  if (!settled.ok) return settled
  const next = transient(circuit, { ...common, start: settled.final, span_s: period_s })
  if (!next.ok) return next
  if (alike(settled.final.values, next.final.values, nearlyAlike)) {
    const steady = steadyState(circuit, {
      ...common,
      period_s,
      probes: stageProbes(p),
      start: settled.final,
      settle: 0,
      iterations: 12,
      limits: { events: 20_000, steps: 1_000_000 },
    })
    if (steady.ok) return fromSteady(p, circuit, 1, steady)
  }
  const over = transient(circuit, {
    ...common,
    start: settled.final,
    span_s: restless * period_s,
    probes: stageProbes(p),
    windows: [{ name: 'all', from_s: 0, to_s: Number.MAX_VALUE }],
  })
  if (!over.ok) return over
  return {
    ok: true,
    circuit,
    parameters: p,
    statistics: over.windows.all!,
    state: settled.final,
    knobs,
    clocks: 1,
    period_s,
    repeatsAfter: 0,
    multiplier: Number.NaN,
    residual: 1,
  }
}

/** True where a cycle that was found as a doubled one is the single one twice. */
function repeatsAtOnce(circuit: Circuit, run: SteadyRun, period_s: number): boolean {
  const once = transient(circuit, { start: run.state, knobs: run.knobs, span_s: period_s })
  if (!once.ok) return false
  return alike(run.state.values, once.final.values, 1e-6)
}

/** True where no state differs by more than a part of itself, or of a thousandth of a volt or ampere. */
const alike = (a: Float64Array, b: Float64Array, within: number): boolean =>
  a.every((value, i) => Math.abs(value - b[i]!) < within * Math.max(1e-3, Math.abs(value)))

const fromSteady = (p: StageParameters, circuit: Circuit, clocks: number, run: SteadyRun): StageCycleRun => {
  const lead = run.multipliers[0] ?? { re: 0, im: 0 }
  return {
    ok: true,
    circuit,
    parameters: p,
    statistics: run.statistics,
    state: run.state,
    knobs: run.knobs,
    clocks,
    period_s: clocks / p.frequency_Hz,
    repeatsAfter: run.periods > 1 && repeatsAtOnce(circuit, run, clocks / p.frequency_Hz) ? 1 : run.periods,
    multiplier: Math.hypot(lead.re, lead.im),
    residual: run.residual,
  }
}
