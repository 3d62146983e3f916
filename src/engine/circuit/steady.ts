import { type Circuit, unknownNames } from './circuit.ts'
import { CycleSolver } from './cycle.ts'
import { Observer, probeSet, Tally } from './observe.ts'
import type { RunFailure } from './problem.ts'
import type { Probe, SteadyFailure, SteadyOptions, SteadyResult } from './run.ts'
import { Runner } from './runner.ts'
import { Sensitivity } from './sensitivity.ts'
import { eigenvalues } from './spectrum.ts'
import { asFailure } from './stop.ts'
import { findCycle } from './target.ts'
import { checkProbes, readTally } from './transient.ts'

const followed = '\u0000followed'

/**
 * The repeating cycle of a circuit driven with a period: Newton's method on the map over one cycle with its
 * exact derivative (shooting; Aprille and Trick, Proc. IEEE 60, 1972), safeguarded by damping and by plain
 * cycles. With `solve` it also finds the knob for a wanted average. Floquet multipliers tell whether the cycle
 * is stable; an unstable one is a failure, or is sought at two, four ... periods when `periods` allows.
 * Own states of slow elements are held, their laws followed.
 */
export function steadyState(circuit: Circuit, options: SteadyOptions): SteadyResult {
  const bad = check(circuit, options)
  if (bad !== undefined) return failure(bad)
  try {
    return shoot(circuit, options)
  } catch (error) {
    return failure(asFailure(error, 0))
  }
}

function shoot(circuit: Circuit, options: SteadyOptions): SteadyResult {
  const probes: Record<string, Probe> = { ...options.probes }
  if (options.solve !== undefined) probes[followed] = options.solve.average
  const set = probeSet(probes)
  const n = circuit.structure.free.length
  const knobs = { ...options.knobs }
  const { solve } = options
  if (solve !== undefined) knobs[solve.knob] = solve.guess ?? (solve.low + solve.high) / 2
  const runner = new Runner(circuit, knobs, set.forms, options.limits)
  if (options.start === undefined) runner.startCold()
  else runner.resume(options.start)
  const follow = solve === undefined ? -1 : set.outputs.at(-1)![0]
  const observer = new Observer(set, n, 0)
  const integral = new Tally(0, Number.POSITIVE_INFINITY, follow < 0 ? [] : [set.names.length - 1])
  if (follow >= 0) observer.open.push(integral)
  observer.refresh()
  const sensitivity = new Sensitivity(n, follow)
  runner.watchers.push(observer)
  const settled = runner.runTo(runner.time + (options.settle ?? 8) * options.period_s)
  if (settled !== undefined) return failure(settled)
  runner.watchers.push(sensitivity)

  let cyclesBefore = options.settle ?? 8
  let last: SteadyFailure | undefined
  let periods = 1
  let kicks = 0
  while (periods <= (options.periods ?? 1)) {
    const solver = new CycleSolver(
      runner,
      sensitivity,
      periods * options.period_s,
      circuit.layout.caps.length,
      () => (follow < 0 ? 0 : integral.sum[0]!),
    )
    const found = findCycle(solver, options)
    cyclesBefore += solver.cycles
    if ('code' in found) {
      last = { ok: false, ...found, multipliers: [] }
      if (found.code !== 'no-cycle') return last
      periods *= 2
      continue
    }
    const multipliers = eigenvalues(found.pass.monodromy, n) ?? []
    const lead = multipliers[0] ?? { re: 0, im: 0 }
    if (Math.hypot(lead.re, lead.im) > 1 + 1e-7) {
      const subharmonic = lead.im === 0 && lead.re < 0
      // the shorter cycle twice over is no answer: its multiplier is squared
      const before = last?.multipliers[0]
      const same = before !== undefined && Math.abs(lead.re / before.re ** 2 - 1) < 1e-5
      if (!same)
        last = {
          ok: false,
          code: subharmonic ? 'subharmonic' : 'unstable',
          message: `the cycle of ${periods} period(s) is unstable: Floquet multiplier ${lead.re.toPrecision(4)}${
            lead.im === 0 ? '' : ` + j${lead.im.toPrecision(4)}`
          }${subharmonic ? ' (period doubling)' : ''}`,
          residual: found.pass.residual,
          multipliers,
        }
      if (same && kicks < 6) kicks++
      else {
        periods *= 2
        kicks = 0
      }
      // step off the unstable cycle, let the motion grow
      runner.replaceStates(runner.x.map((value) => value * (1 + 1e-3 * (kicks + 1))))
      const grown = runner.runTo(runner.time + 200 * options.period_s)
      if (grown !== undefined) return failure(grown)
      continue
    }
    // one more cycle for the figures of all probes
    runner.watchers = [observer]
    const state = runner.snapshot()
    const tally = new Tally(
      0,
      Number.POSITIVE_INFINITY,
      set.names.map((_, i) => i).filter((i) => set.names[i] !== followed),
    )
    observer.open.length = 0
    observer.open.push(tally)
    observer.refresh()
    const run = runner.runTo(state.time_s + periods * options.period_s)
    if (run !== undefined) return failure(run)
    return {
      ok: true,
      state,
      statistics: readTally(set, tally),
      knobs: { ...runner.knobs },
      periods,
      subharmonic: periods > 1,
      multipliers,
      residual: found.pass.residual,
      iterations: found.iterations,
      cycles: cyclesBefore + 1,
    }
  }
  return last!
}

function failure(stop: RunFailure): SteadyFailure {
  return {
    ok: false,
    code: stop.code,
    message: stop.message,
    residual: Number.POSITIVE_INFINITY,
    multipliers: [],
  }
}

function check(circuit: Circuit, options: SteadyOptions): RunFailure | undefined {
  const fail = (message: string): RunFailure => ({ ok: false, code: 'bad-option', message, time_s: 0 })
  if (!(options.period_s > 0 && Number.isFinite(options.period_s)))
    return fail(`period_s is ${options.period_s}, must be positive and finite`)
  const { solve } = options
  if (solve !== undefined) {
    if (circuit.netlist.knobs?.[solve.knob] === undefined) return fail(`no knob called ${solve.knob}`)
    if (!(solve.high > solve.low))
      return fail(`solve.high is ${solve.high}, must be above low = ${solve.low}`)
    const problem = unknownNames(circuit.layout, solve.average, 'solve.average')[0]
    if (problem !== undefined) return fail(problem.message)
  }
  return checkProbes(circuit, options.probes ?? {}, options.knobs)
}
