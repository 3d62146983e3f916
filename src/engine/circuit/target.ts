import { type CycleSolver, closeCycle, type Pass, solveReturn } from './cycle.ts'
import type { RunFailure, RunFailureCode } from './problem.ts'
import type { SteadyOptions } from './run.ts'

export type TargetFailure = {
  readonly code: RunFailureCode | 'no-cycle' | 'target-out-of-reach'
  readonly message: string
  readonly residual: number
}

/**
 * Closed cycle, and the knob for a wanted average when `options.solve` asks for one: Newton's method on the
 * average of the closed cycle, with dA/dp = A_p + A_x (I - M)^-1 x_p, kept inside a bracket once the target is
 * enclosed (in discontinuous mode the average need not be monotone in the knob).
 */
export function findCycle(
  solver: CycleSolver,
  options: SteadyOptions,
): { readonly pass: Pass; readonly iterations: number } | TargetFailure {
  const { runner } = solver
  const { solve } = options
  const tolerance = options.tolerance ?? 1e-9
  const most = options.iterations ?? 60
  let below: number | undefined
  let above: number | undefined
  let total = 0
  let edges = 0
  for (let turn = 0; turn < 60; turn++) {
    const closed = closeCycle(solver, tolerance, most, options.cancelled)
    if ('missed' in closed) {
      const at = solve === undefined ? '' : ` with ${solve.knob} = ${runner.knobs[solve.knob]}`
      return {
        code: 'no-cycle',
        message: `no repeating cycle${at} after ${solver.cycles} cycles; the closest missed by ${closed.missed.toExponential(2)}`,
        residual: closed.missed,
      }
    }
    if ('ok' in closed) return fromRun(closed)
    total += closed.iterations
    const { pass } = closed
    if (solve === undefined) return { pass, iterations: total }
    const miss = solve.target - pass.average
    if (Math.abs(miss) <= (solve.tolerance ?? 1e-8) * Math.max(Math.abs(solve.target), 1e-12))
      return { pass, iterations: total }
    const knob = runner.knobs[solve.knob]!
    if (miss > 0) below = knob
    else above = knob
    const slope = slopeByKnob(solver, solve.knob, pass, 1e-6 * (solve.high - solve.low))
    if (typeof slope !== 'number') return fromRun(slope)
    let next = knob + miss / slope
    if (below !== undefined && above !== undefined) {
      const low = Math.min(below, above)
      const high = Math.max(below, above)
      if (!(next > low && next < high) || turn % 6 === 5) next = (low + high) / 2
      if (high - low < 1e-14 * (solve.high - solve.low)) break
    } else {
      const reach = (solve.high - solve.low) / 3
      // against the slope of the moment when it only leads along a bound
      next = Number.isFinite(next) ? Math.min(knob + reach, Math.max(knob - reach, next)) : knob + reach
      next = Math.min(solve.high, Math.max(solve.low, next))
      if (next === knob) {
        if (++edges > 1) {
          return {
            code: 'target-out-of-reach',
            message: `average ${pass.average.toPrecision(6)} cannot be brought to ${solve.target} with ${solve.knob} between ${solve.low} and ${solve.high}`,
            residual: Math.abs(miss),
          }
        }
        next = knob === solve.low ? solve.high : solve.low
      }
    }
    runner.knobs[solve.knob] = next
    runner.refreshInputs()
  }
  // Both sides of the target have cycles, and nothing between them repeats there.
  return {
    code: 'no-cycle',
    message: `the average jumps past ${solve?.target} as ${solve?.knob} changes`,
    residual: Number.POSITIVE_INFINITY,
  }
}

const fromRun = (stop: RunFailure): TargetFailure => ({
  code: stop.code,
  message: stop.message,
  residual: Number.POSITIVE_INFINITY,
})

/** Change of the closed cycle's average with the knob, from one more pass with the knob moved a little. */
function slopeByKnob(solver: CycleSolver, name: string, pass: Pass, move: number): number | RunFailure {
  const { runner } = solver
  const after = runner.snapshot()
  const knob = runner.knobs[name]!
  runner.knobs[name] = knob + move
  runner.resume(pass.from)
  const moved = solver.pass()
  runner.knobs[name] = knob
  runner.resume(after)
  if ('ok' in moved) return moved
  const endBy = moved.end.map((value, i) => (value - pass.end[i]!) / move)
  const stateBy = solveReturn(pass, endBy)
  let slope = (moved.average - pass.average) / move
  stateBy?.forEach((value, i) => {
    slope += pass.averageBy[i]! * value
  })
  return slope
}
