import { DisturbanceResponse } from './disturbance.ts'
import type { FeedbackPath } from './feedback-path.ts'
import type { FlybackStage } from './operating-point.ts'
import { filterPort, loadConductance } from './output-filter.ts'
import { evaluate } from './polynomial.ts'
import type { PowerStage } from './power-stage.ts'

export interface OutputRipple {
  /** Peak to peak at the first capacitor: whole, and its two causes alone. */
  readonly first_Vpp: number
  readonly resistive_Vpp: number
  readonly capacitive_Vpp: number
  /** Peak to peak at the load; the same as at the first capacitor without a second stage. */
  readonly load_Vpp: number
  /** Rms of the ripple current in the first capacitor. */
  readonly capacitor_Arms: number
}

/**
 * Output ripple at the switching frequency. The rectifier's current is a ramp from its peak over the off-duty; the
 * capacitor takes what the load does not: dv = ESR ic + integral of ic/C. At the first capacitor piecewise exact; at the
 * load from the first 40 harmonics through the filter's transfer impedance. Leakage, capacitor inductance and winding
 * capacitance are left out: spikes at the edges are not in here.
 */
export function outputRipple(stage: FlybackStage, small: PowerStage): OutputRipple {
  const { point } = small
  const T = 1 / stage.frequency_Hz
  const n = stage.turnsRatio
  const top = n * point.primary_Apeak
  const fall = point.offDuty * T
  const bothEnds = (2 * stage.output_A * T) / fall
  const end = Math.max(0, bothEnds - top)
  const { capacitance_F: C, capacitorResistance_ohm: r } = stage.filter
  const count = 256
  const offset = stage.output_A
  let charge = 0
  let high = Number.NEGATIVE_INFINITY
  let low = Number.POSITIVE_INFINITY
  let chargeHigh = 0
  let chargeLow = 0
  let square = 0
  const see = (ic: number): void => {
    const v = r * ic + charge / C
    high = Math.max(high, v)
    low = Math.min(low, v)
    chargeHigh = Math.max(chargeHigh, charge)
    chargeLow = Math.min(chargeLow, charge)
  }
  const dt = fall / count
  for (let k = 0; k <= count; k++) {
    const ic = top + ((end - top) * k) / count - offset
    see(ic)
    const next = top + ((end - top) * (k + 1)) / count - offset
    if (k < count) {
      charge += 0.5 * (ic + next) * dt
      square += ((ic * ic + ic * next + next * next) / 3) * dt
    }
  }
  see(-offset)
  charge -= offset * (T - fall)
  see(-offset)
  square += offset * offset * (T - fall)
  const first_Vpp = high - low
  return {
    first_Vpp,
    resistive_Vpp: r * top,
    capacitive_Vpp: (chargeHigh - chargeLow) / C,
    load_Vpp: stage.filter.second === null ? first_Vpp : loadRipple(stage, top, end, fall),
    capacitor_Arms: Math.sqrt(square / T),
  }
}

/** Points of one period at which the ripple of the load is summed. */
const samples = 400
const cosines = Float64Array.from({ length: samples }, (_, k) => Math.cos((2 * Math.PI * k) / samples))
const sines = Float64Array.from({ length: samples }, (_, k) => Math.sin((2 * Math.PI * k) / samples))

function loadRipple(stage: FlybackStage, top: number, end: number, fall: number): number {
  const port = filterPort(stage.filter, loadConductance(stage.load, stage.output_V, stage.output_A))
  const transfer = { num: port.n12, den: port.den }
  const f = stage.frequency_Hz
  const wave = new Float64Array(samples)
  const z = new Float64Array(2)
  for (let h = 1; h <= 40; h++) {
    const w = 2 * Math.PI * f * h
    const [re, im] = rampHarmonic(top, end, fall, w)
    evaluate(transfer, h * f, z)
    const vr = 2 * f * (re * z[0]! - im * z[1]!)
    const vi = 2 * f * (re * z[1]! + im * z[0]!)
    for (let k = 0, turn = 0; k < samples; k++) {
      wave[k]! += vr * cosines[turn]! - vi * sines[turn]!
      turn = (turn + h) % samples
    }
  }
  let high = 0
  let low = 0
  for (const v of wave) {
    high = Math.max(high, v)
    low = Math.min(low, v)
  }
  return high - low
}

/** Integral of a ramp from `a` to `b` over time `t`, times exp(-j w t). */
function rampHarmonic(a: number, b: number, t: number, w: number): [number, number] {
  const slope = (b - a) / t
  const cos = Math.cos(w * t)
  const sin = Math.sin(w * t)
  return [(b * sin) / w + (slope * (cos - 1)) / (w * w), (b * cos - a) / w - (slope * sin) / (w * w)]
}

/**
 * Mains ripple that comes through to the load: ripple of the bulk capacitor (peak to peak, nearly a sine at twice the
 * mains frequency) times the closed loop's answer to the bulk voltage there.
 */
export function mainsRipple(
  stage: FlybackStage,
  small: PowerStage,
  path: FeedbackPath,
  bulk_Vpp: number,
  mains_Hz: number,
): number {
  const out = new Float64Array(2)
  new DisturbanceResponse(small, stage.filter, path, 'bulk-voltage').at(0, 4 * Math.PI * mains_Hz, out)
  return bulk_Vpp * Math.hypot(out[0]!, out[1]!)
}
