import { requireBetween } from '../quantity/require.ts'
import { crestCurrent, highest, lowest, type Near, newPulse, type Pulse, repeat } from './charging-pulse.ts'

/** What the bulk capacitor is fed from: sinusoidal mains through a bridge, or direct current. */
export type BulkSource =
  | { readonly kind: 'mains'; readonly voltage_Vrms: number; readonly frequency_Hz: number }
  | { readonly kind: 'dc'; readonly voltage_V: number }

export interface BulkCircuit {
  readonly source: BulkSource
  /** All that is in series with the charging current: line, fuse, hot thermistor, choke, both diodes' slope. */
  readonly seriesResistance_ohm: number
  /** Forward drop of one bridge diode; two conduct at a time. 0 for a DC feed without a bridge. */
  readonly bridgeDrop_V: number
  readonly capacitance_F: number
  /** Constant power that the converter draws from the capacitor. */
  readonly power_W: number
}

export interface BulkReading {
  readonly ok: true
  readonly minimum_V: number
  readonly maximum_V: number
  readonly average_V: number
  /** Angles from the crest of the mains at which charging starts (negative) and ends. */
  readonly conductionStart_rad: number
  readonly conductionEnd_rad: number
  /** Time of one charging pulse; the whole of a half period for a DC feed. */
  readonly conductionTime_s: number
  readonly input_Apeak: number
  readonly input_Arms: number
  /** Each diode of the bridge carries every second pulse. */
  readonly diode_Aaverage: number
  readonly diode_Arms: number
  readonly input_W: number
  readonly powerFactor: number
  /** Ripple current of the capacitor at twice the mains frequency and its harmonics. */
  readonly capacitorRipple_Arms: number
  /** Lost in the series resistance. */
  readonly resistance_W: number
  /** Lost in the constant part of the bridge's drop. */
  readonly bridgeDrop_W: number
}

export interface BulkFailure {
  readonly ok: false
  readonly code: 'collapses'
  readonly message: string
}

/** Resistance below which charging is indistinguishable from an ideal source; keeps the pulse's algebra regular. */
const leastResistance_ohm = 1e-3

/** Nodes and weights of 12-point Gauss-Legendre quadrature on (-1, 1), positive half. */
const nodes = [
  0.1252334085114689, 0.3678314989981802, 0.5873179542866175, 0.7699026741943047, 0.9041172563704749,
  0.9815606342467192,
] as const
const weights = [
  0.2491470458134028, 0.2334925365383548, 0.2031674267230659, 0.1600783285433462, 0.1069393259953184,
  0.0471753363865118,
] as const

/**
 * Repeating cycle of a bridge rectifier with a bulk capacitor and a constant-power load, in closed form.
 *
 * Charging, from angle a to b about the crest, with the load P/v taken as its tangent about the mean voltage U:
 *   w R C dv/dx + v (1 - R P/U^2) = V cos x - 2 Vf - 2 R P/U, a linear equation with a closed solution;
 *   the current (V cos x - 2 Vf - v)/R is zero at both a and b.
 * Discharging, from b to a + pi: C v dv/dt = -P, so v^2 falls by 2 P (pi + a - b)/(w C).
 * Newton's method finds b for a given a, false position finds a. In the limit R = 0 this is the usual
 * cosine-charging relation, e.g. Erickson and Maksimovic, Fundamentals of Power Electronics, sect. 18.1 (idea;
 * from memory); the form with resistance is derived here.
 *
 * Units SI. Valid for a sinusoidal source and a load whose power does not depend on the voltage. Against the circuit
 * solved in time: voltages within 0.5 % while the valley stays above six tenths of the crest, within 4 % nearer to
 * collapse, where the linearised load tells. Throws RangeError for impossible input; returns `collapses` when the capacitor is empty before the next
 * crest, or the series resistance cannot pass the power. `near` is a reading of much the same circuit: it saves steps.
 */
export function solveBulk(circuit: BulkCircuit, near: Near | null = null): BulkReading | BulkFailure {
  const { source, bridgeDrop_V, capacitance_F: C, power_W: P } = circuit
  requireBetween('seriesResistance_ohm', circuit.seriesResistance_ohm, 0, 1e5, 'ohm')
  requireBetween('bridgeDrop_V', bridgeDrop_V, 0, 10, 'V')
  requireBetween('capacitance_F', C, 1e-9, 1, 'F')
  requireBetween('power_W', P, 0, 1e5, 'W')
  const R = Math.max(circuit.seriesResistance_ohm, leastResistance_ohm)
  if (source.kind === 'dc') return directFeed(source.voltage_V, R, bridgeDrop_V, P)
  requireBetween('voltage_Vrms', source.voltage_Vrms, 1, 1e4, 'V')
  requireBetween('frequency_Hz', source.frequency_Hz, 1, 1e4, 'Hz')
  const omega = 2 * Math.PI * source.frequency_Hz
  const crest = source.voltage_Vrms * Math.SQRT2
  const drop = 2 * bridgeDrop_V
  if (crest <= drop) return collapse(P, C, source.voltage_Vrms)
  if (P === 0) return idle(crest - drop)

  const pulse = newPulse(crest, drop, R, P, omega * R * C)
  if (!repeat(pulse, (2 * P) / (omega * C), near)) return collapse(P, C, source.voltage_Vrms)
  return readPulse(pulse, omega, C, source.voltage_Vrms)
}

function readPulse(p: Pulse, omega: number, C: number, line_Vrms: number): BulkReading {
  const middle = 0.5 * (p.a + p.b)
  const half = 0.5 * (p.b - p.a)
  let charge = 0
  let square = 0
  let rippleSquare = 0
  let volts = 0
  let peak = 0
  let peakAngle = middle
  const cosMiddle = Math.cos(middle)
  const sinMiddle = Math.sin(middle)
  for (let k = 0; k < nodes.length; k++) {
    // both nodes from the middle of the pulse by the addition theorems
    const away = half * nodes[k]!
    const w = half * weights[k]!
    const cosAway = Math.cos(away)
    const sinAway = Math.sin(away)
    const early = p.K * Math.exp((p.a - middle + away) / p.q)
    const late = early * Math.exp((-2 * away) / p.q)
    for (let side = -1; side <= 1; side += 2) {
      const cos = cosMiddle * cosAway - side * sinMiddle * sinAway
      const sin = sinMiddle * cosAway + side * cosMiddle * sinAway
      const v = p.wave * cos + p.quad * sin - p.level + (side < 0 ? early : late)
      const i = (p.crest * cos - p.drop - v) / p.R
      const ripple = i - p.P / v
      charge += w * i
      square += w * i * i
      rippleSquare += w * ripple * ripple
      volts += w * v
      if (i > peak) {
        peak = i
        peakAngle = middle + side * away
      }
    }
  }
  peak = Math.max(peak, crestCurrent(p, peakAngle))
  const away_rad = Math.PI - (p.b - p.a)
  const end = p.end_V
  const start = p.start_V
  rippleSquare += omega * C * p.P * Math.log(end / start)
  volts += (omega * C * (end ** 3 - start ** 3)) / (3 * p.P)
  const rms = Math.sqrt(square / Math.PI)
  const resistance_W = rms * rms * p.R
  const bridgeDrop_W = (p.drop * charge) / Math.PI
  const power = p.P + resistance_W + bridgeDrop_W
  return {
    ok: true,
    minimum_V: lowest(p),
    maximum_V: highest(p),
    average_V: volts / Math.PI,
    conductionStart_rad: p.a,
    conductionEnd_rad: p.b,
    conductionTime_s: (Math.PI - away_rad) / omega,
    input_Apeak: peak,
    input_Arms: rms,
    diode_Aaverage: charge / (2 * Math.PI),
    diode_Arms: rms / Math.SQRT2,
    input_W: power,
    powerFactor: power / (rms * line_Vrms),
    capacitorRipple_Arms: Math.sqrt(rippleSquare / Math.PI),
    resistance_W,
    bridgeDrop_W,
  }
}

function directFeed(
  voltage_V: number,
  R: number,
  bridgeDrop_V: number,
  P: number,
): BulkReading | BulkFailure {
  requireBetween('voltage_V', voltage_V, 1, 1e4, 'V')
  const drop = 2 * bridgeDrop_V
  const open = voltage_V - drop
  const root = open * open - 4 * P * R
  if (open <= 0 || root < 0)
    return {
      ok: false,
      code: 'collapses',
      message: `${R} ohm in series cannot pass ${P} W from ${voltage_V} V: the greatest is ${Math.max(0, (open * open) / (4 * R)).toPrecision(3)} W`,
    }
  const v = 0.5 * (open + Math.sqrt(root))
  const current = P / v
  return {
    ok: true,
    minimum_V: v,
    maximum_V: v,
    average_V: v,
    conductionStart_rad: -Math.PI / 2,
    conductionEnd_rad: Math.PI / 2,
    conductionTime_s: Number.POSITIVE_INFINITY,
    input_Apeak: current,
    input_Arms: current,
    diode_Aaverage: bridgeDrop_V > 0 ? current : 0,
    diode_Arms: bridgeDrop_V > 0 ? current : 0,
    input_W: voltage_V * current,
    powerFactor: 1,
    capacitorRipple_Arms: 0,
    resistance_W: current * current * R,
    bridgeDrop_W: drop * current,
  }
}

const idle = (voltage_V: number): BulkReading => ({
  ok: true,
  minimum_V: voltage_V,
  maximum_V: voltage_V,
  average_V: voltage_V,
  conductionStart_rad: 0,
  conductionEnd_rad: 0,
  conductionTime_s: 0,
  input_Apeak: 0,
  input_Arms: 0,
  diode_Aaverage: 0,
  diode_Arms: 0,
  input_W: 0,
  powerFactor: 0,
  capacitorRipple_Arms: 0,
  resistance_W: 0,
  bridgeDrop_W: 0,
})

const collapse = (P: number, C: number, line_Vrms: number): BulkFailure => ({
  ok: false,
  code: 'collapses',
  message: `${(C * 1e6).toPrecision(3)} uF cannot carry ${P.toPrecision(3)} W from crest to crest of ${line_Vrms.toPrecision(3)} V rms: the bulk voltage collapses`,
})
