import { evaluate, type Rational } from './polynomial.ts'

export interface Crossing {
  readonly frequency_Hz: number
  /** Phase above -180 degrees where the gain is 1, between -180 and 180. */
  readonly phaseMargin_deg: number
}

export interface Margins {
  readonly ok: true
  /** Every frequency where the loop gain crosses 1, rising order. */
  readonly crossings: readonly Crossing[]
  /** The highest crossing: where the loop stops acting. */
  readonly crossover_Hz: number
  /** Least phase margin over all crossings. */
  readonly phaseMargin_deg: number
  /** Least factor, in dB, by which the gain may rise before the phase of -180 degrees meets gain 1; infinite if never. */
  readonly gainMargin_dB: number
  /** Least factor by which the gain may fall before that, dB; infinite if never (not a conditionally stable loop). */
  readonly gainReduction_dB: number
  /** Signed passes of the curve through the real axis left of -1, clockwise positive, over positive frequencies. */
  readonly clockwise: number
}

export interface MarginsFailure {
  readonly ok: false
  readonly code: 'no-crossover'
  readonly message: string
}

const value = new Float64Array(2)

/**
 * Crossovers, phase and gain margin of a loop gain between two frequencies, by a sweep of 40 points a decade and
 * false position at every sign change. Resonances narrower than a fortieth of a decade between two points can hide a pair
 * of crossings; their Q would have to exceed about 30. Fewer points serve where many loops are compared.
 */
export function margins(
  T: Rational,
  from_Hz: number,
  to_Hz: number,
  pointsPerDecade = 40,
): Margins | MarginsFailure {
  const ratio = 10 ** (1 / pointsPerDecade)
  const crossings: Crossing[] = []
  let gainMargin = Number.POSITIVE_INFINITY
  let gainReduction = Number.POSITIVE_INFINITY
  let clockwise = 0
  let f = from_Hz
  evaluate(T, f, value)
  let re = value[0]!
  let im = value[1]!
  while (f < to_Hz) {
    const next = Math.min(f * ratio, to_Hz)
    evaluate(T, next, value)
    const re2 = value[0]!
    const im2 = value[1]!
    if (re * re + im * im > 1 !== re2 * re2 + im2 * im2 > 1) {
      const at = crossingOf(T, f, next, size)
      evaluate(T, at, value)
      crossings.push({
        frequency_Hz: at,
        phaseMargin_deg: (Math.atan2(-value[1]!, -value[0]!) * 180) / Math.PI,
      })
    }
    if (im > 0 !== im2 > 0 && (re < 0 || re2 < 0)) {
      const at = crossingOf(T, f, next, imaginary)
      evaluate(T, at, value)
      const real = value[0]!
      if (real < 0) {
        const room = -20 * Math.log10(-real)
        if (real > -1) gainMargin = Math.min(gainMargin, room)
        else {
          gainReduction = Math.min(gainReduction, -room)
          clockwise += im2 > 0 ? 1 : -1
        }
      }
    }
    f = next
    re = re2
    im = im2
  }
  const last = crossings[crossings.length - 1]
  if (last === undefined)
    return {
      ok: false,
      code: 'no-crossover',
      message: `the loop gain does not cross 1 between ${from_Hz} and ${Math.round(to_Hz)} Hz`,
    }
  let phaseMargin_deg = 180
  for (const c of crossings)
    if (Math.abs(c.phaseMargin_deg) < Math.abs(phaseMargin_deg)) phaseMargin_deg = c.phaseMargin_deg
  for (const c of crossings)
    if (c.phaseMargin_deg < 0) phaseMargin_deg = Math.min(phaseMargin_deg, c.phaseMargin_deg)
  return {
    ok: true,
    crossings,
    crossover_Hz: last.frequency_Hz,
    phaseMargin_deg,
    gainMargin_dB: gainMargin,
    gainReduction_dB: gainReduction,
    clockwise,
  }
}

const size = (re: number, im: number): number => Math.log(re * re + im * im)
const imaginary = (re: number, im: number): number => im / Math.hypot(re, im)

const mostSteps = 60
const closeEnough = 1e-13

/**
 * Frequency between two at which a test of the loop gain changes sign: false position over the logarithm of frequency,
 * with the value at an end that stays halved (the Illinois rule), so that it closes in from both sides.
 */
function crossingOf(T: Rational, from: number, to: number, test: (re: number, im: number) => number): number {
  const at = (log: number): number => {
    evaluate(T, Math.exp(log), value)
    return test(value[0]!, value[1]!)
  }
  let low = Math.log(from)
  let high = Math.log(to)
  let atLow = at(low)
  let atHigh = at(high)
  let stayed = 0
  for (let k = 0; k < mostSteps && high - low > closeEnough; k++) {
    const between = (low * atHigh - high * atLow) / (atHigh - atLow)
    const middle = between > low && between < high ? between : 0.5 * (low + high)
    const here = at(middle)
    if (Math.abs(here) < closeEnough) return Math.exp(middle)
    if (here > 0 === atLow > 0) {
      low = middle
      atLow = here
      if (stayed === 1) atHigh *= 0.5
      stayed = 1
    } else {
      high = middle
      atHigh = here
      if (stayed === -1) atLow *= 0.5
      stayed = -1
    }
  }
  return Math.exp(0.5 * (low + high))
}

/**
 * Number of closed-loop poles in the right half-plane by Nyquist's criterion: unstable open-loop poles plus twice the
 * clockwise passes left of -1 over positive frequencies.
 */
export const unstableByNyquist = (openLoopUnstable: number, m: Margins): number =>
  openLoopUnstable + 2 * m.clockwise
