import { controlShare, type FeedbackPath, ledResistance } from './feedback-path.ts'

/**
 * The feedback path at one frequency as plain complex numbers: slow lane (real, imaginary), fast lane (real,
 * imaginary) into `out`. The same circuit as `pathPolynomials`, evaluated without building polynomials.
 */
export function pathAt(path: FeedbackPath, frequency_Hz: number, out: Float64Array): void {
  const w = 2 * Math.PI * frequency_Hz
  const C = path.compensationCapacitor_F
  const Ch = path.highFrequencyCapacitor_F
  const R = path.compensationResistor_ohm
  const ni = w * R * C
  const dr = -w * w * R * C * Ch
  const di = w * (C + Ch)
  const input_S = 1 / path.dividerTop_ohm + 1 / path.dividerBottom_ohm
  // 1/A of the reference
  const own = (frequency_Hz * path.referenceGain) / path.referenceGainBandwidth_Hz
  const soft = w * path.ledResistor_ohm * path.softFinishCapacitor_F
  const ar = (1 - own * soft) / path.referenceGain
  const ai = (own + soft) / path.referenceGain
  // cathode denominator: Dz + (Dz + Nz g)/A
  const sr = dr + input_S
  const si = di + input_S * ni
  const kr = dr + sr * ar - si * ai
  const ki = di + sr * ai + si * ar
  const rd = ledResistance(path.led_A)
  const share = Number.isFinite(path.biasResistor_ohm)
    ? path.biasResistor_ohm / (path.biasResistor_ohm + rd)
    : 1
  const gain = (path.transferRatio * path.controlGain * share) / (path.ledResistor_ohm + rd * share)
  // gain over both lags
  const o = frequency_Hz / path.optocouplerPole_Hz
  const p = frequency_Hz / path.controlPole_Hz
  const lr = 1 - o * p
  const li = o + p
  const size = lr * lr + li * li
  // and the part of it that enters the control pin
  const { zero_s, pole_s } = controlShare(path.controlCapacitor)
  const z = w * zero_s
  const q = w * pole_s
  const er = (1 + z * q) / (1 + q * q)
  const ei = (z - q) / (1 + q * q)
  const gr = (gain * (lr * er + li * ei)) / size
  const gi = (gain * (lr * ei - li * er)) / size
  const k2 = kr * kr + ki * ki
  const zr = (kr + ni * ki) / k2 / path.dividerTop_ohm
  const zi = (ni * kr - ki) / k2 / path.dividerTop_ohm
  out[0] = zr * gr - zi * gi
  out[1] = zr * gi + zi * gr
  const fast = path.ledTap === 'fixed' ? 0 : 1
  out[2] = fast * gr
  out[3] = fast * gi
}
