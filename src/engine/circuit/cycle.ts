import { factorLu, solveLu } from './dense.ts'
import type { RunFailure } from './problem.ts'
import type { CircuitState } from './run.ts'
import type { Runner } from './runner.ts'
import type { Sensitivity } from './sensitivity.ts'

/** One pass over a cycle: where it began and ended, and how the end depends on the start. */
export interface Pass {
  readonly from: CircuitState
  readonly start: Float64Array
  readonly end: Float64Array
  /** d end / d start, n x n. */
  readonly monodromy: Float64Array
  /** Average of the followed output and its derivative by the start. */
  readonly average: number
  readonly averageBy: Float64Array
  /** Largest relative change of a state. */
  readonly residual: number
}

/** Runs cycles of one runner and solves for the one that repeats. */
export class CycleSolver {
  readonly runner: Runner
  readonly sensitivity: Sensitivity
  readonly length_s: number
  /** Integral of the followed output so far, kept by the owner. */
  private readonly integral: () => number
  readonly scale: Float64Array
  readonly voltages: number
  cycles = 0

  constructor(
    runner: Runner,
    sensitivity: Sensitivity,
    length_s: number,
    voltageStates: number,
    integral: () => number,
  ) {
    this.runner = runner
    this.sensitivity = sensitivity
    this.length_s = length_s
    this.integral = integral
    this.voltages = voltageStates
    this.scale = new Float64Array(sensitivity.n)
  }

  /** Run one cycle from where the runner stands. */
  pass(): Pass | RunFailure {
    const { runner, sensitivity, length_s } = this
    const from = runner.snapshot()
    const start = runner.x.slice()
    sensitivity.reset()
    const before = this.integral()
    const failure = runner.runTo(from.time_s + length_s)
    this.cycles++
    if (failure !== undefined) return failure
    const end = runner.x.slice()
    return {
      from,
      start,
      end,
      monodromy: sensitivity.matrix.slice(),
      average: (this.integral() - before) / length_s,
      averageBy: sensitivity.gradient.map((value) => value / length_s),
      residual: this.relative(start, end),
    }
  }

  /** Change of every state against its size, or a thousandth of the largest of its kind. */
  private relative(start: Float64Array, end: Float64Array): number {
    const { free } = this.runner.circuit.structure
    let volts = 0
    let amps = 0
    for (let i = 0; i < start.length; i++)
      if (free[i]! < this.voltages) volts = Math.max(volts, Math.abs(start[i]!))
      else amps = Math.max(amps, Math.abs(start[i]!))
    let worst = 0
    for (let i = 0; i < start.length; i++) {
      const least = 1e-3 * (free[i]! < this.voltages ? volts : amps) + 1e-12
      worst = Math.max(worst, Math.abs(end[i]! - start[i]!) / Math.max(Math.abs(start[i]!), least))
    }
    return worst
  }
}

/** Solve (I - M) dx = rhs for the monodromy M of a pass, or undefined when singular. */
export function solveReturn(pass: Pass, rhs: Float64Array): Float64Array | undefined {
  const n = pass.start.length
  const a = pass.monodromy.map((value, i) => (i % (n + 1) === 0 ? 1 : 0) - value)
  const order = new Int32Array(n)
  const scale = new Float64Array(n)
  if (n > 0 && factorLu(a, n, order, scale) >= 0) return undefined
  const out = new Float64Array(n)
  solveLu(a, n, order, scale, rhs, 1, out)
  return out.every(Number.isFinite) ? out : undefined
}

/**
 * Newton's method on `end(start) = start` until the cycle closes within `tolerance`: rounds of full steps
 * dx = (I - M)^-1 (end - start); between rounds plain cycles from the best state met, later damped steps.
 * The runner ends at the end of the converged cycle.
 */
export function closeCycle(
  solver: CycleSolver,
  tolerance: number,
  most: number,
  cancelled: (() => boolean) | undefined,
): { readonly pass: Pass; readonly iterations: number } | RunFailure | { readonly missed: number } {
  const { runner } = solver
  let kept: Pass | undefined
  for (let iterations = 1; iterations <= most; iterations++) {
    if (cancelled?.() === true)
      return { ok: false, code: 'cancelled', message: 'cancelled', time_s: runner.time }
    const round = Math.floor((iterations - 1) / 14)
    if (iterations > 1 && (iterations - 1) % 14 === 0) {
      if (kept !== undefined) runner.resume(kept.from)
      const plain = 8 * 4 ** Math.min(round, 3)
      const failed = runner.runTo(runner.time + plain * solver.length_s)
      if (failed !== undefined) return failed
      solver.cycles += plain
      kept = undefined
    }
    const pass = solver.pass()
    if ('ok' in pass) {
      if (kept === undefined || pass.code !== 'no-consistent-state') return pass
      runner.resume(kept.from)
      continue
    }
    if (pass.residual <= tolerance) return { pass, iterations }
    if (kept === undefined || pass.residual < kept.residual) kept = pass
    const step = solveReturn(
      pass,
      pass.end.map((value, i) => value - pass.start[i]!),
    )
    if (step === undefined) continue
    const damping = round < 2 ? 1 : 0.4
    const after = runner.snapshot()
    try {
      runner.replaceStates(pass.start.map((value, i) => value + damping * step[i]!))
    } catch {
      runner.resume(after)
    }
  }
  return { missed: kept?.residual ?? Number.POSITIVE_INFINITY }
}
