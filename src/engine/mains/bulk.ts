import { requireBetween } from '../quantity/require.ts'

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
 * crest, or the series resistance cannot pass the power.
 */
export function solveBulk(circuit: BulkCircuit): BulkReading | BulkFailure {
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

  const pulse: Pulse = {
    crest,
    drop,
    R,
    P,
    q0: omega * R * C,
    q: 0,
    wave: 0,
    quad: 0,
    level: 0,
    a: 0,
    b: 0,
    start_V: 0,
    end_V: 0,
    K: 0,
  }
  if (!repeat(pulse, (2 * P) / (omega * C))) return collapse(P, C, source.voltage_Vrms)
  return readPulse(pulse, omega, C, source.voltage_Vrms)
}

/**
 * One charging pulse. The load current is taken as P/v linearised about `about_V`, so that the equation stays linear:
 * v = wave cos x + quad sin x - level + K exp((a - x)/q).
 */
interface Pulse {
  readonly crest: number
  readonly drop: number
  readonly R: number
  readonly P: number
  readonly q0: number
  q: number
  wave: number
  quad: number
  level: number
  a: number
  b: number
  start_V: number
  end_V: number
  K: number
}

/** Sets the coefficients that depend on the voltage about which the load is linearised. */
function linearise(p: Pulse, about_V: number): boolean {
  const gain = 1 - (p.R * p.P) / (about_V * about_V)
  if (gain <= 0) return false
  p.q = p.q0 / gain
  p.wave = p.crest / gain / (1 + p.q * p.q)
  p.quad = p.wave * p.q
  p.level = (p.drop + (2 * p.R * p.P) / about_V) / gain
  return true
}

const voltageAt = (p: Pulse, x: number): number =>
  p.wave * Math.cos(x) + p.quad * Math.sin(x) - p.level + p.K * Math.exp((p.a - x) / p.q)

const currentAt = (p: Pulse, x: number): number => (p.crest * Math.cos(x) - p.drop - voltageAt(p, x)) / p.R

/**
 * Completes the pulse that starts at angle `a`: Newton's method for its end `b`, where the current is zero again.
 * False when it does not start or does not end within half a period.
 */
function complete(p: Pulse, a: number): boolean {
  p.a = a
  p.start_V = p.crest * Math.cos(a) - p.drop
  if (p.start_V <= 0) return false
  p.K = p.start_V - p.wave * Math.cos(a) - p.quad * Math.sin(a) + p.level
  const cosine = p.crest - p.wave
  const constant = p.level - p.drop
  let b = p.b > 0 ? p.b : -a
  for (let k = 0; k < 40; k++) {
    const cos = Math.cos(b)
    const sin = Math.sin(b)
    const decay = p.K * Math.exp((a - b) / p.q)
    const gap = cosine * cos - p.quad * sin + constant - decay
    const slope = -cosine * sin - p.quad * cos + decay / p.q
    let next = slope < 0 ? b - gap / slope : b + 0.2
    if (next < a + 0.3 * (b - a)) next = a + 0.3 * (b - a)
    if (next > a + Math.PI) {
      if (b >= a + Math.PI) return false
      next = a + Math.PI
    }
    const moved = Math.abs(next - b)
    b = next
    if (moved < 1e-7) {
      p.b = b
      p.end_V = p.crest * Math.cos(b) - p.drop
      return p.end_V > 0 && b - a > 1e-9
    }
  }
  return false
}

/** Mismatch of v^2 after one half period, V^2; negative when the pulse must start earlier. */
function mismatch(p: Pulse, a: number, fall: number): number {
  if (!complete(p, a)) return Number.NaN
  return p.end_V * p.end_V - fall * (Math.PI + a - p.b) - p.start_V * p.start_V
}

/**
 * Finds the start angle for which the cycle repeats, on the branch of highest voltage: steps down from the crest
 * until the sign changes, then false position (Illinois form). Twice: the second time with the load linearised about
 * the voltage found.
 */
function repeat(p: Pulse, fall: number): boolean {
  const top = p.crest - p.drop
  let about_V = Math.sqrt(Math.max(0.25 * top * top, top * top - 0.4 * fall * Math.PI))
  let guess = -Math.acos(Math.sqrt(Math.max(0.3 * top * top, top * top - 0.85 * fall * Math.PI)) / p.crest)
  let step = 0.05
  for (let pass = 0; pass < 3; pass++) {
    if (!linearise(p, about_V) || !search(p, guess, step, fall)) return false
    const mean = 0.5 * (p.start_V + p.end_V)
    if (Math.abs(mean - about_V) < 2e-3 * mean) return true
    about_V = mean
    guess = p.a
    step = 0.005
  }
  return true
}

function search(p: Pulse, guess: number, step: number, fall: number): boolean {
  let high = Math.min(guess, -1e-4)
  let highValue = mismatch(p, high, fall)
  for (let k = 0; !(highValue <= 0); k++) {
    if (k === 30) return false
    high = Math.min(high + step * (1 + k), 0.6 * high)
    p.b = 0
    highValue = mismatch(p, high, fall)
  }
  let low = high
  let lowValue = highValue
  let stride = step
  for (let k = 0; !(lowValue >= 0); k++) {
    const next = low - stride
    const nextValue = next > -Math.PI / 2 ? mismatch(p, next, fall) : Number.NaN
    if (Number.isNaN(nextValue)) {
      stride *= 0.5
      p.b = 0
      if (stride < 1e-4 || k > 80) return false
      continue
    }
    if (k > 0) {
      high = low
      highValue = lowValue
    }
    low = next
    lowValue = nextValue
    stride *= 1.5
  }
  const enough = 1e-7 * p.crest * p.crest
  let side = 0
  for (let k = 0; k < 60; k++) {
    const a = (low * highValue - high * lowValue) / (highValue - lowValue)
    const value = mismatch(p, a, fall)
    if (Number.isNaN(value)) return false
    if (Math.abs(value) < enough) return true
    if (value >= 0) {
      low = a
      lowValue = value
      if (side === 1) highValue *= 0.5
      side = 1
    } else {
      high = a
      highValue = value
      if (side === -1) lowValue *= 0.5
      side = -1
    }
  }
  return false
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
  for (let k = -6; k < 6; k++) {
    const index = k < 0 ? -k - 1 : k
    const x = middle + (k < 0 ? -1 : 1) * half * nodes[index]!
    const w = half * weights[index]!
    const cos = Math.cos(x)
    const v = p.wave * cos + p.quad * Math.sin(x) - p.level + p.K * Math.exp((p.a - x) / p.q)
    const i = (p.crest * cos - p.drop - v) / p.R
    const ripple = i - p.P / v
    charge += w * i
    square += w * i * i
    rippleSquare += w * ripple * ripple
    volts += w * v
    if (i > peak) {
      peak = i
      peakAngle = x
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

/** The voltage goes on falling until the charging current has reached the load current. */
/** The voltage goes on falling until the charging current has reached the load current. */
const lowest = (p: Pulse): number => Math.min(p.start_V, turning(p, p.a))

const highest = (p: Pulse): number => Math.max(p.start_V, p.end_V, turning(p, p.b))

/** Voltage where dv/dx = 0, by Newton's method from one end of the pulse. */
function turning(p: Pulse, from: number): number {
  let x = from
  for (let k = 0; k < 12; k++) {
    const cos = Math.cos(x)
    const sin = Math.sin(x)
    const decay = (p.K * Math.exp((p.a - x) / p.q)) / p.q
    const slope = p.quad * cos - p.wave * sin - decay
    const curve = -p.quad * sin - p.wave * cos + decay / p.q
    const next = Math.min(p.b, Math.max(p.a, x - slope / curve))
    const moved = Math.abs(next - x)
    x = next
    if (moved < 1e-4) break
  }
  return voltageAt(p, x)
}

/** Greatest current of the pulse: Newton's method on di/dx = 0 from a nearby angle, held inside the pulse. */
function crestCurrent(p: Pulse, from: number): number {
  let x = from
  for (let k = 0; k < 8; k++) {
    const cos = Math.cos(x)
    const sin = Math.sin(x)
    const decay = (p.K * Math.exp((p.a - x) / p.q)) / p.q
    const slope = p.wave * sin - p.crest * sin - p.quad * cos + decay
    const curve = (p.wave - p.crest) * cos + p.quad * sin - decay / p.q
    if (curve >= 0) break
    const next = Math.min(p.b, Math.max(p.a, x - slope / curve))
    const moved = Math.abs(next - x)
    x = next
    if (moved < 1e-5) break
  }
  return currentAt(p, x)
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
