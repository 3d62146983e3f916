import { requireBetween } from '../quantity/require.ts'
import { type Disturbance, DisturbanceResponse } from './disturbance.ts'
import type { FeedbackPath } from './feedback-path.ts'
import { closedLoopPoles, loopGain, type Pole } from './loop-gain.ts'
import type { OutputFilter } from './output-filter.ts'
import type { PowerStage } from './power-stage.ts'

export interface StepResponse {
  readonly ok: true
  /** Change of the voltage at the load, V, at the times asked for. */
  readonly deviation_V: Float64Array
  /** Greatest change in size, with its sign and time. */
  readonly peak_V: number
  readonly peak_s: number
  readonly final_V: number
  /** Time after which the change stays within a tenth of its peak from its end, s. */
  readonly settle_s: number
  /** Frequency and damping of the least damped pair of poles below half the switching frequency; null if none. */
  readonly ringing: { readonly frequency_Hz: number; readonly damping: number } | null
}

export interface StepFailure {
  readonly ok: false
  readonly code: 'unstable' | 'diverged'
  readonly message: string
}

/**
 * Linear model's answer to a step of load current (A, positive for more load) or bulk voltage (V), on an even grid of
 * `points` times to `duration_s`.
 *
 * Sum over closed-loop poles p of residue exp(p t); each residue of H(s)/s is a mean over sixteen points on a small
 * circle about its pole. A small-signal estimate: a step that drives the duty to an end or changes the mode of
 * conduction goes further than this.
 */
export function stepResponse(
  stage: PowerStage,
  filter: OutputFilter,
  path: FeedbackPath,
  kind: Disturbance,
  size: number,
  duration_s: number,
  points = 400,
): StepResponse | StepFailure {
  requireBetween('duration_s', duration_s, 1e-9, 1e3, 's')
  requireBetween('points', points, 2, 1e6)
  const found = closedLoopPoles(loopGain(stage, path))
  if (!found.ok) return { ok: false, code: 'diverged', message: found.message }
  const right = found.poles.find((p) => p.real_rad_per_s >= 0)
  if (right)
    return {
      ok: false,
      code: 'unstable',
      message: `the loop oscillates near ${right.frequency_Hz.toPrecision(3)} Hz: it has no settled response`,
    }
  const response = new DisturbanceResponse(stage, filter, path, kind)
  const poles = [{ real_rad_per_s: 0, imaginary_rad_per_s: 0 }, ...found.poles]
  const deviation_V = new Float64Array(points)
  for (const pole of poles) {
    const [r, i] = residue(response, pole, poles)
    for (let k = 0; k < points; k++) {
      const t = (k * duration_s) / (points - 1)
      const decay = size * Math.exp(pole.real_rad_per_s * t)
      const angle = pole.imaginary_rad_per_s * t
      deviation_V[k]! += decay * (r * Math.cos(angle) - i * Math.sin(angle))
    }
  }
  return { ok: true, deviation_V, ...describe(deviation_V, duration_s), ringing: ringing(found.poles, stage) }
}

type Place = Pick<Pole, 'real_rad_per_s' | 'imaginary_rad_per_s'>

function residue(response: DisturbanceResponse, pole: Place, poles: readonly Place[]): [number, number] {
  let nearest = Number.POSITIVE_INFINITY
  for (const other of poles) {
    if (other === pole) continue
    const gap = Math.hypot(
      other.real_rad_per_s - pole.real_rad_per_s,
      other.imaginary_rad_per_s - pole.imaginary_rad_per_s,
    )
    nearest = Math.min(nearest, gap)
  }
  const radius = 0.3 * nearest
  const count = 16
  const out = new Float64Array(2)
  let sumR = 0
  let sumI = 0
  for (let k = 0; k < count; k++) {
    const angle = (2 * Math.PI * (k + 0.5)) / count
    const dr = radius * Math.cos(angle)
    const di = radius * Math.sin(angle)
    const sr = pole.real_rad_per_s + dr
    const si = pole.imaginary_rad_per_s + di
    response.at(sr, si, out)
    const size = sr * sr + si * si
    const qr = (out[0]! * sr + out[1]! * si) / size
    const qi = (out[1]! * sr - out[0]! * si) / size
    sumR += qr * dr - qi * di
    sumI += qr * di + qi * dr
  }
  return [sumR / count, sumI / count]
}

function describe(
  v: Float64Array,
  duration_s: number,
): Pick<StepResponse, 'peak_V' | 'peak_s' | 'final_V' | 'settle_s'> {
  let at = 0
  for (let k = 1; k < v.length; k++) if (Math.abs(v[k]!) > Math.abs(v[at]!)) at = k
  const step = duration_s / (v.length - 1)
  const final_V = v[v.length - 1]!
  let settle = v.length - 1
  while (settle > 0 && Math.abs(v[settle - 1]! - final_V) <= 0.1 * Math.abs(v[at]!)) settle--
  return { peak_V: v[at]!, peak_s: at * step, final_V, settle_s: settle * step }
}

function ringing(poles: readonly Pole[], stage: PowerStage): StepResponse['ringing'] {
  const limit = 0.4 / stage.equations.samplePeriod_s
  let found: Pole | null = null
  for (const p of poles)
    if (p.imaginary_rad_per_s > 0 && p.frequency_Hz < limit && (found === null || p.damping < found.damping))
      found = p
  return found === null ? null : { frequency_Hz: found.frequency_Hz, damping: found.damping }
}
