import { fail, type Result, succeed } from '../core/result.ts'
import { mu0 } from '../gap/index.ts'
import { leastSquares } from './least-squares.ts'

/**
 * Magnetisation curve B = mu0 H + J x / (1 + x^n)^(1/n), x = mu0 mu H / J: slope mu at the origin (the amplitude
 * permeability, above the initial one), polarisation J in saturation, knee sharper as n grows.
 */
export interface Knee {
  readonly polarisation_T: number
  readonly permeability: number
  readonly sharpness: number
}

export interface CurvePoint {
  readonly field_A_per_m: number
  readonly flux_T: number
}

/** Knee when points do not tell: fits 330 mT at 250 A/m with 380 mT at 1200 A/m hot; common practice. */
const usualSharpness = 2

/** B at a field, T. */
export function kneeFlux(knee: Knee, field_A_per_m: number): number {
  const { polarisation_T: J, permeability, sharpness } = knee
  if (!(J > 0)) return mu0 * field_A_per_m
  const x = (mu0 * permeability * Math.abs(field_A_per_m)) / J
  return mu0 * field_A_per_m + Math.sign(field_A_per_m) * J * x * (1 + x ** sharpness) ** (-1 / sharpness)
}

/** Reversible (differential) relative permeability at a field. */
export function kneePermeability(knee: Knee, field_A_per_m: number): number {
  const { polarisation_T: J, permeability, sharpness } = knee
  if (!(J > 0)) return 1
  const x = (mu0 * permeability * Math.abs(field_A_per_m)) / J
  return 1 + permeability * (1 + x ** sharpness) ** (-1 - 1 / sharpness)
}

/**
 * Field at which the reversible permeability has fallen to a value, A/m, in closed form; 0 where it never was above,
 * Infinity where the value is no more than air's.
 */
export function fieldAtPermeability(knee: Knee, permeability: number): number {
  if (permeability <= 1) return Number.POSITIVE_INFINITY
  const n = knee.sharpness
  const power = (knee.permeability / (permeability - 1)) ** (n / (n + 1)) - 1
  return (knee.polarisation_T * Math.max(0, power) ** (1 / n)) / (mu0 * knee.permeability)
}

/**
 * Knee through the points of one temperature by damped least squares in the logarithms of its parameters, all of them
 * from four points on, slope and saturation from three, saturation alone below.
 * Errors: points that no such curve comes near, as one above the line of the slope.
 */
export function fitKnee(points: readonly CurvePoint[], initialPermeability: number): Result<Knee> {
  const free = points.length >= 4 ? 3 : points.length === 3 ? 2 : 1
  const top = Math.max(...points.map((p) => p.flux_T))
  const toKnee = (p: readonly number[]): Knee => ({
    polarisation_T: Math.exp(p[0] ?? 0),
    permeability: free > 1 ? Math.exp(p[1] ?? 0) : initialPermeability,
    sharpness: free > 2 ? Math.exp(p[2] ?? 0) : usualSharpness,
  })
  const misses = (p: readonly number[]) => points.map((q) => kneeFlux(toKnee(p), q.field_A_per_m) - q.flux_T)
  const cost = (m: readonly number[]) => m.reduce((sum, x) => sum + x * x, 0)
  let at = [Math.log(top), Math.log(initialPermeability), Math.log(usualSharpness)].slice(0, free)
  let miss = misses(at)
  let damping = 1e-3
  for (let round = 0; round < 200 && damping < 1e12; round++) {
    const slopes = at.map((_, c) => {
      const moved = misses(at.map((x, i) => (i === c ? x + 1e-6 : x)))
      return moved.map((m, i) => (m - (miss[i] ?? 0)) / 1e-6)
    })
    const rows = [
      ...points.map((_, i) => slopes.map((s) => s[i] ?? 0)),
      ...at.map((_, c) => at.map((__, i) => (i === c ? Math.sqrt(damping) * top : 0))),
    ]
    const step = leastSquares(rows, [...miss.map((m) => -m), ...at.map(() => 0)])
    const next = at.map((x, i) => x + Math.max(-1, Math.min(1, step[i] ?? 0)))
    const nextMiss = misses(next)
    if (cost(nextMiss) < cost(miss)) {
      at = next
      miss = nextMiss
      damping = Math.max(1e-12, damping / 10)
      if (step.every((s) => Math.abs(s) < 1e-10)) break
    } else damping *= 10
  }
  const worst = Math.max(...miss.map(Math.abs))
  if (!(worst < 0.15 * top))
    return fail(
      'saturation',
      `no magnetisation curve with permeability near ${initialPermeability} comes within 15 % of the saturation points`,
    )
  return succeed(toKnee(at))
}
