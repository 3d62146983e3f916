import { fail, type Result, succeed } from '../core/result.ts'
import { type SteinmetzFit, warmthFactor } from './steinmetz.ts'

/** Gamma function for x > 0.5, Lanczos approximation with g = 7, relative error below 1e-13. */
function gamma(x: number): number {
  const c = [
    0.99999999999980993, 676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059,
    12.507343278686905, -0.13857109526572012, 9.9843695780195716e-6, 1.5056327351493116e-7,
  ]
  const z = x - 1
  let sum = c[0] ?? 0
  for (let i = 1; i < c.length; i++) sum += (c[i] ?? 0) / (z + i)
  const t = z + 7.5
  return Math.sqrt(2 * Math.PI) * t ** (z + 0.5) * Math.exp(-t) * sum
}

/**
 * Constant of the improved generalised Steinmetz equation,
 * ki = k / ((2 pi)^(alpha-1) 2^(beta-alpha) integral over a turn of |cos|^alpha), the integral in closed form
 * 2 sqrt(pi) gamma((alpha+1)/2) / gamma(alpha/2+1).
 * Source: Venkatachalam, Sullivan, Abdallah, Tacca, COMPEL 2002.
 */
export function igseConstant(k: number, alpha: number, beta: number): number {
  const turn = (2 * Math.sqrt(Math.PI) * gamma((alpha + 1) / 2)) / gamma(alpha / 2 + 1)
  return k / ((2 * Math.PI) ** (alpha - 1) * 2 ** (beta - alpha) * turn)
}

/** A fit made ready for flux that is not a sine. */
export interface LossModel {
  readonly fit: SteinmetzFit
  readonly ki: number
}

export const lossModel = (fit: SteinmetzFit): LossModel => ({
  fit,
  ki: igseConstant(fit.k, fit.alpha, fit.beta),
})

/**
 * Loss density of a flux triangle that rises by `swing_Tpp` in `rise_s`, falls back in `fall_s` and rests for what is
 * left of the period, W/m³. Both flyback modes: the rest is zero in continuous mode. The steady flux under the
 * triangle does not enter: the method knows no bias, which in ferrite raises the loss of small swings on a strong bias.
 */
export function triangleLoss(
  model: LossModel,
  frequency_Hz: number,
  swing_Tpp: number,
  rise_s: number,
  fall_s: number,
  temperature_C: number,
): number {
  if (!(swing_Tpp > 0)) return 0
  const { alpha, beta } = model.fit
  const times = rise_s ** (1 - alpha) + fall_s ** (1 - alpha)
  return model.ki * swing_Tpp ** beta * times * frequency_Hz * warmthFactor(model.fit, temperature_C)
}

/**
 * Loss density of one period of piecewise linear flux, W/m³: points at rising times from 0, the last point one period
 * after the first with the same flux. Minor loops are taken out and counted with their own swing.
 * Errors: fewer than three points, times that do not rise, flux that does not close.
 */
export function waveformLoss(
  model: LossModel,
  time_s: readonly number[],
  flux_T: readonly number[],
  temperature_C: number,
): Result<number> {
  const n = time_s.length
  if (n < 3 || flux_T.length !== n)
    return fail(
      'time_s',
      `the waveform has ${n} times and ${flux_T.length} flux values, but it needs the same number, at least 3`,
    )
  for (let i = 1; i < n; i++)
    if (!((time_s[i] ?? 0) > (time_s[i - 1] ?? 0)))
      return fail(`time_s.${i}`, `time ${i} does not come after the one before it`)
  const swing = Math.max(...flux_T) - Math.min(...flux_T)
  if (swing === 0) return succeed(0)
  if (Math.abs((flux_T[n - 1] ?? 0) - (flux_T[0] ?? 0)) > 1e-9 * swing)
    return fail('flux_T', 'the flux at the end of the period differs from that at its start')
  const period_s = (time_s[n - 1] ?? 0) - (time_s[0] ?? 0)
  const { alpha, beta } = model.fit
  let energy = 0
  for (const loop of loops(time_s, flux_T))
    for (const s of loop.segments)
      energy += loop.swing_T ** (beta - alpha) * s.step_T ** alpha * s.time_s ** (1 - alpha)
  return succeed((model.ki * energy * warmthFactor(model.fit, temperature_C)) / period_s)
}

interface Segment {
  readonly step_T: number
  readonly time_s: number
}
interface Loop {
  readonly swing_T: number
  readonly segments: Segment[]
}

/** Splits a period into one major loop and its minor loops. */
function loops(time_s: readonly number[], flux_T: readonly number[]): Loop[] {
  const n = time_s.length - 1
  const start = flux_T.indexOf(Math.min(...flux_T.slice(0, n)))
  const at = (i: number) => flux_T[(start + i) % n] ?? 0
  const span = (i: number) => {
    const j = (start + i) % n
    return (time_s[j + 1] ?? 0) - (time_s[j] ?? 0)
  }
  const values = Array.from({ length: n + 1 }, (_, i) => at(i))
  const top = values.indexOf(Math.max(...values))
  const out: Loop[] = []
  const major: Segment[] = []
  const rising = Array.from({ length: top }, (_, i) => ({ from: at(i), to: at(i + 1), time_s: span(i) }))
  const falling = Array.from({ length: n - top }, (_, i) => ({
    from: -at(top + i),
    to: -at(top + i + 1),
    time_s: span(top + i),
  }))
  branch(rising, major, out)
  branch(falling, major, out)
  out.push({ swing_T: (values[top] ?? 0) - (values[0] ?? 0), segments: major })
  return out
}

interface Piece {
  readonly from: number
  readonly to: number
  readonly time_s: number
}

/** Goes up one branch; what dips below the highest point so far is a minor loop, until that point is reached again. */
function branch(pieces: readonly Piece[], major: Segment[], out: Loop[]): void {
  let high = pieces[0]?.from ?? 0
  let dip: Piece[] = []
  const close = () => {
    if (dip.length === 0) return
    const low = Math.min(...dip.map((p) => p.to))
    const turn = dip.findIndex((p) => p.to === low) + 1
    const minor: Segment[] = []
    branch(
      dip.slice(0, turn).map((p) => ({ from: -p.from, to: -p.to, time_s: p.time_s })),
      minor,
      out,
    )
    branch(dip.slice(turn), minor, out)
    out.push({ swing_T: high - low, segments: minor })
    dip = []
  }
  for (const p of pieces) {
    if (p.to <= high) {
      if (p.to < high || p.from < high) dip.push(p)
      continue
    }
    if (p.from < high) {
      const share = (high - p.from) / (p.to - p.from)
      dip.push({ from: p.from, to: high, time_s: share * p.time_s })
      close()
      major.push({ step_T: p.to - high, time_s: (1 - share) * p.time_s })
    } else {
      close()
      major.push({ step_T: p.to - p.from, time_s: p.time_s })
    }
    high = p.to
  }
  close()
}
