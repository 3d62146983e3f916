import type { Material } from '../../parts/part.ts'
import { fail, type Result, succeed } from '../core/result.ts'
import { dot, leastSquares, norm, subtract } from './least-squares.ts'

export type LossPoint = Material['lossPoints'][number]

/**
 * Loss density under a sine, W/m³: k f^alpha B^beta exp(warm u + warmSquared u²), with f in Hz, B the peak in T and
 * u = (T - 100 °C) / 100 K.
 */
export interface SteinmetzFit {
  readonly k: number
  readonly alpha: number
  readonly beta: number
  readonly warm: number
  readonly warmSquared: number
  /** Exponents that the points could not tell and that were taken from practice. */
  readonly assumed: readonly ('alpha' | 'beta' | 'temperature')[]
  /** Greatest relative miss of the fit at its own points. */
  readonly greatestMiss: number
  /** Where points exist; outside it the fit extrapolates. */
  readonly range: {
    readonly frequency_Hz: readonly [number, number]
    readonly fluxPeak_T: readonly [number, number]
    readonly temperature_C: readonly [number, number]
  }
}

/** Exponents of power ferrites near 100 kHz when points do not tell: common practice, no source. */
const usual = [0, 1.4, 2.5, 0, 0] as const
const names = ['k', 'alpha', 'beta', 'temperature', 'temperature'] as const

const columns = (p: LossPoint): readonly number[] => {
  const u = (p.temperature_C - 100) / 100
  return [1, Math.log(p.frequency_Hz / 1e5), Math.log(p.fluxPeak_T / 0.1), u, u * u]
}

/**
 * Least squares in logarithms through loss points. A quantity that takes one value only, or that always moves with
 * another, cannot be told apart: its exponent is then assumed and named in `assumed`.
 * Errors: no point, or a point that is not positive.
 */
export function fitSteinmetz(points: readonly LossPoint[]): Result<SteinmetzFit> {
  if (points.length === 0) return fail('lossPoints', 'there is no loss point, but the fit needs at least one')
  for (const [i, p] of points.entries())
    if (!(p.frequency_Hz > 0 && p.fluxPeak_T > 0 && p.loss_W_per_m3 > 0 && Number.isFinite(p.temperature_C)))
      return fail(`lossPoints.${i}`, 'frequency, flux and loss of a loss point must be above 0')
  const rows = points.map(columns)
  const told = independentColumns(rows)
  const right = points.map((p, i) => {
    const row = rows[i] ?? []
    return usual.reduce(
      (y, value, c) => y - (told.includes(c) ? 0 : value * (row[c] ?? 0)),
      Math.log(p.loss_W_per_m3),
    )
  })
  const found = leastSquares(
    rows.map((row) => told.map((c) => row[c] ?? 0)),
    right,
  )
  const value = (c: number) => (told.includes(c) ? (found[told.indexOf(c)] ?? 0) : (usual[c] ?? 0))
  const [alpha, beta] = [value(1), value(2)]
  const fit = {
    k: Math.exp(value(0)) / (1e5 ** alpha * 0.1 ** beta),
    alpha,
    beta,
    warm: value(3),
    warmSquared: value(4),
  }
  const misses = points.map((p) =>
    Math.abs(sineLoss(fit, p.frequency_Hz, p.fluxPeak_T, p.temperature_C) / p.loss_W_per_m3 - 1),
  )
  const extent = (pick: (p: LossPoint) => number): readonly [number, number] => [
    Math.min(...points.map(pick)),
    Math.max(...points.map(pick)),
  ]
  return succeed({
    ...fit,
    assumed: [...new Set(names.filter((_, c) => !told.includes(c) && c !== 4))] as SteinmetzFit['assumed'],
    greatestMiss: Math.max(...misses),
    range: {
      frequency_Hz: extent((p) => p.frequency_Hz),
      fluxPeak_T: extent((p) => p.fluxPeak_T),
      temperature_C: extent((p) => p.temperature_C),
    },
  })
}

type Coefficients = Pick<SteinmetzFit, 'k' | 'alpha' | 'beta' | 'warm' | 'warmSquared'>

/** Factor by which the loss at a temperature differs from that at 100 °C. */
export function warmthFactor(fit: Pick<Coefficients, 'warm' | 'warmSquared'>, temperature_C: number): number {
  const u = (temperature_C - 100) / 100
  return Math.exp((fit.warm + fit.warmSquared * u) * u)
}

/** Loss density under a sine of peak flux `fluxPeak_T`, W/m³. */
export const sineLoss = (
  fit: Coefficients,
  frequency_Hz: number,
  fluxPeak_T: number,
  temperature_C: number,
) => fit.k * frequency_Hz ** fit.alpha * fluxPeak_T ** fit.beta * warmthFactor(fit, temperature_C)

/** Columns, from the first, that do not follow from those before them (Gram-Schmidt). */
function independentColumns(rows: readonly (readonly number[])[]): number[] {
  const kept: number[] = []
  const basis: number[][] = []
  for (let c = 0; c < usual.length; c++) {
    const column = rows.map((row) => row[c] ?? 0)
    const before = norm(column)
    for (const b of basis) subtract(column, b, dot(column, b))
    const left = norm(column)
    if (left > 1e-3 * before && before > 1e-9) {
      basis.push(column.map((x) => x / left))
      kept.push(c)
    }
  }
  return kept
}
