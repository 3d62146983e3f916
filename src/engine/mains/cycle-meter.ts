import type { MainsCycle } from './time-run.ts'

/** What the meter asks of the solver about a state. */
interface Probe {
  source(t: number): number
  current(t: number, y: Float64Array): number
  lampOhm(y: Float64Array): number
  readonly isDrawing: boolean
}

/**
 * Integrates and bounds readings over one period of the mains, step by step: Simpson's rule on the ends and the middle of
 * each step, the middle and the extremes from the cubic that matches values and slopes at both ends.
 */
export class CycleMeter {
  private low = Number.POSITIVE_INFINITY
  private high = Number.NEGATIVE_INFINITY
  private volts = 0
  private peak = 0
  private square = 0
  private energy = 0
  private lamp = 0
  private heat = 0
  private coldest = Number.POSITIVE_INFINITY
  private hottest = Number.NEGATIVE_INFINITY
  private drawn = 0
  private thermistor_C: number
  private readonly middle = new Float64Array(3)

  constructor(y: Float64Array) {
    this.thermistor_C = y[2]!
    this.reset()
  }

  /** Adds one step from `y` at `t` to `next`, with the slopes at both ends. */
  add(
    t: number,
    h: number,
    y: Float64Array,
    next: Float64Array,
    slope: Float64Array,
    nextSlope: Float64Array,
    probe: Probe,
  ): void {
    const { middle } = this
    for (let n = 0; n < 3; n++) middle[n] = 0.5 * (y[n]! + next[n]!) + (h / 8) * (slope[n]! - nextSlope[n]!)
    const a = probe.current(t, y)
    const b = Math.max(0, probe.current(t + h / 2, middle))
    const c = Math.max(0, probe.current(t + h, next))
    const third = h / 6
    this.volts += third * (y[0]! + 4 * middle[0]! + next[0]!)
    this.square += third * (a * a + 4 * b * b + c * c)
    this.energy +=
      third *
      (a * Math.abs(probe.source(t)) +
        4 * b * Math.abs(probe.source(t + h / 2)) +
        c * Math.abs(probe.source(t + h)))
    this.lamp +=
      third * (a * a * probe.lampOhm(y) + 4 * b * b * probe.lampOhm(middle) + c * c * probe.lampOhm(next))
    this.heat += third * (y[1]! + 4 * middle[1]! + next[1]!)
    if (probe.isDrawing) this.drawn += h
    this.peak = Math.max(this.peak, a, c, crestOf(a, b, c))
    const v = turning(y[0]!, next[0]!, slope[0]! * h, nextSlope[0]! * h)
    this.low = Math.min(this.low, y[0]!, next[0]!, v)
    this.high = Math.max(this.high, y[0]!, next[0]!, v)
    const k = turning(y[1]!, next[1]!, slope[1]! * h, nextSlope[1]! * h)
    this.coldest = Math.min(this.coldest, y[1]!, next[1]!, k)
    this.hottest = Math.max(this.hottest, y[1]!, next[1]!, k)
    this.thermistor_C = next[2]!
  }

  /** Readings of the period just ended; the meter starts anew. */
  close(start_s: number, period_s: number): MainsCycle {
    const cycle: MainsCycle = {
      start_s,
      busLow_V: this.low,
      busHigh_V: this.high,
      bus_Vaverage: this.volts / period_s,
      line_Apeak: this.peak,
      line_Arms: Math.sqrt(this.square / period_s),
      input_W: this.energy / period_s,
      lamp_W: this.lamp / period_s,
      filamentLow_K: this.coldest,
      filament_K: this.heat / period_s,
      filamentHigh_K: this.hottest,
      thermistor_C: this.thermistor_C,
      running: this.drawn / period_s,
    }
    this.reset()
    return cycle
  }

  private reset(): void {
    this.low = Number.POSITIVE_INFINITY
    this.high = Number.NEGATIVE_INFINITY
    this.volts = this.peak = this.square = this.energy = this.lamp = this.heat = this.drawn = 0
    this.coldest = Number.POSITIVE_INFINITY
    this.hottest = Number.NEGATIVE_INFINITY
  }
}

/** Turning value of the cubic with end values p, q and end slopes times the length a, b; p where there is none inside. */
function turning(p: number, q: number, a: number, b: number): number {
  if (a > 0 === b > 0) return p
  const x = a / (a - b)
  const u = 1 - x
  return p * u * u * (1 + 2 * x) + q * x * x * (3 - 2 * x) + a * x * u * u - b * x * x * u
}

/** Crest of the parabola through three equally spaced values; the middle one where it has no crest inside. */
function crestOf(a: number, b: number, c: number): number {
  const curve = a - 2 * b + c
  const lean = c - a
  return curve < 0 && Math.abs(lean) < -2 * curve ? b - (lean * lean) / (8 * curve) : b
}
