import type { Courses } from './courses.ts'
import type { Span } from './span.ts'

/**
 * Longest safe sampling step for the courses listed, from the modes still alive in them at the instant given
 * to the span's `decays`. A mode is alive while above `alive` times the terms its course is summed from. A polynomial
 * which bends one way has one turning point at most; others, and several slow modes together, may turn more often
 * and are sampled within the span however short it is.
 */
export function sampleStep(
  span: Span,
  courses: Courses,
  list: Int32Array,
  count: number,
  alive: number,
): number {
  const part = span.horizon / 8
  let step = span.horizon
  let varied = 0
  for (let f = 0; f < span.fastCount; f++) {
    const limit = 0.8 / span.pace[f]!
    if (limit >= step && varied > 1) continue
    const decay = span.decay[f]!
    for (let i = 0; i < count; i++) {
      const r = list[i]!
      const at = r * courses.modes + f
      const size = (Math.abs(courses.ampRe[at]!) + Math.abs(courses.ampIm[at]!)) * decay
      if (size > alive * courses.size[r]!) {
        if (limit < step) step = limit
        if (limit > part) varied++
        break
      }
    }
  }
  if (step <= part) return step
  if (varied > 1) return part
  for (let i = 0; i < count; i++) if (!courses.bendsOneWay(list[i]!, span)) return part
  return step
}

/** Product of rate and window below which a mode is followed instead of bounded by its amplitude. */
const slowPace = 1.5

/** First time at which a guard turns negative. */
export interface Crossing {
  guard: number
  time: number
}

/**
 * Finds the first instant at which one of several courses (guards, valid while positive) turns negative.
 * Guards which cannot cross, by bounds on polynomial and ring, cost nothing; the others are sampled with value
 * and rate at an eighth of the fastest live ring, dips between samples are resolved, and the root is polished
 * on the exact course.
 */
export class Search {
  readonly active: Int32Array
  readonly value: Float64Array
  readonly rate: Float64Array
  /** Guards that bounds over the whole span could not put aside. */
  private readonly candidates: Int32Array
  private candidateCount = 0
  /** Modes slow against a window, with their exponentials at both of its ends. */
  private readonly slow: Int32Array
  private slowCount = 0
  private readonly isSlow: Uint8Array
  private readonly ends: Float64Array
  readonly tolerance: Float64Array
  /** 1 for guards of devices that have just changed state. */
  readonly fresh: Uint8Array
  readonly found: Crossing = { guard: -1, time: 0 }
  /**
   * Factor on the tolerances, above 1 while events pile up at one instant: a guard that lies on its boundary to
   * rounding in both states may then overstep it a little, and time goes on.
   */
  relax = 1
  /** Samples taken in all. */
  steps = 0

  constructor(capacity: number, states: number) {
    const n = Math.max(1, states)
    this.active = new Int32Array(capacity)
    this.candidates = new Int32Array(capacity)
    this.slow = new Int32Array(n)
    this.isSlow = new Uint8Array(n)
    this.ends = new Float64Array(n * 4)
    this.value = new Float64Array(capacity)
    this.rate = new Float64Array(capacity)
    this.tolerance = new Float64Array(capacity)
    this.fresh = new Uint8Array(capacity)
  }

  /**
   * Search 0..span.horizon; the answer is in `found` (guard -1 when none). Guards marked
   * fresh may start negative as long as they rise.
   */
  run(span: Span, guards: Courses): void {
    const end = span.horizon
    this.found.guard = -1
    this.found.time = end
    for (let g = 0; g < guards.count; g++) this.tolerance[g] = 1e-12 * this.relax * guards.size[g]!
    for (let g = 0; g < guards.count; g++) {
      if (this.fresh[g] === 0) continue
      span.exponentials(0)
      const start = guards.value(g, span, 0)
      if (start < 0 && guards.rate(g, span, 0) > 0)
        this.tolerance[g] = Math.max(this.tolerance[g]!, -1.5 * start)
    }
    let s = 0
    let window = end
    while (s < end) {
      span.decays(s)
      const to = Math.min(end, s + window)
      const activeCount = this.findActive(span, guards, s, to)
      if (activeCount === 0) {
        s = to
        window = Math.max(2 * window, (end - s) / 16)
        continue
      }
      const step = sampleStep(span, guards, this.active, activeCount, 1e-11)
      if (to - s > 6 * step) {
        window = Math.min((to - s) / 4, (end - s) / 4)
        if (window > 3 * step) continue
      }
      span.exponentials(s)
      for (let i = 0; i < activeCount; i++) {
        const g = this.active[i]!
        this.value[g] = guards.value(g, span, s)
        this.rate[g] = guards.rate(g, span, s)
        if (this.value[g]! < -5 * this.tolerance[g]!) {
          this.found.guard = g
          this.found.time = s
          return
        }
      }
      // a few samples, then look again at what is active
      span.prepareRotation(step)
      for (let i = 0; i < 6 && s < to; i++) {
        const next = Math.min(s + step, to)
        if (next < to) span.rotate()
        else span.exponentials(next)
        this.steps++
        if (this.sample(span, guards, activeCount, s, next)) return
        s = next
      }
      window = Math.max(window, 6 * step)
    }
  }

  /** Guards which might cross between s and end; the span's decays must be at s. */
  private findActive(span: Span, guards: Courses, s: number, end: number): number {
    const whole = s === 0 && end === span.horizon
    this.partModes(span, s, end)
    const total = whole ? guards.count : this.candidateCount
    let count = 0
    for (let i = 0; i < total; i++) {
      const g = whole ? i : this.candidates[i]!
      if (this.lowest(span, guards, g, s, end) > 0) continue
      this.active[count++] = g
    }
    if (whole) {
      this.candidates.set(this.active)
      this.candidateCount = count
    }
    return count
  }

  /** Tell modes that are slow against the window s..end from those which may ring in it. */
  private partModes(span: Span, s: number, end: number): void {
    const { slow, isSlow, ends } = this
    const w = end - s
    this.slowCount = 0
    for (let f = 0; f < span.fastCount; f++) {
      isSlow[f] = Number(f < span.fastSingles && span.pace[f]! * w < slowPace)
      if (isSlow[f] === 0) continue
      const at = 4 * this.slowCount
      slow[this.slowCount++] = f
      const sigma = span.sigma[f]!
      const omega = span.omega[f]!
      const from = Math.exp(sigma * s)
      const to = Math.exp(sigma * end)
      ends[at] = omega === 0 ? from : from * Math.cos(omega * s)
      ends[at + 1] = omega === 0 ? 0 : from * Math.sin(omega * s)
      ends[at + 2] = omega === 0 ? to : to * Math.cos(omega * end)
      ends[at + 3] = omega === 0 ? 0 : to * Math.sin(omega * end)
    }
  }

  /**
   * Lower bound of a guard between s and end: polynomial and slow modes lie above the line between their ends less
   * w^2 / 8 times their bend, and modes that ring lower them by their amplitude at most.
   */
  private lowest(span: Span, guards: Courses, g: number, s: number, end: number): number {
    const { slow, ends } = this
    const w = end - s
    let first = guards.polynomial(g, span, s)
    let last = guards.polynomial(g, span, end)
    let bend = span.degree > 1 ? guards.bend(g, span, end) : 0
    const row = g * guards.modes
    for (let i = 0; i < this.slowCount; i++) {
      const f = slow[i]!
      const re = guards.ampRe[row + f]!
      const im = guards.ampIm[row + f]!
      const at = 4 * i
      first += re * ends[at]! - im * ends[at + 1]!
      last += re * ends[at + 2]! - im * ends[at + 3]!
      const sigma = span.sigma[f]!
      const omega = span.omega[f]!
      bend += (sigma * sigma + omega * omega) * (Math.abs(re) + Math.abs(im)) * span.decay[f]!
    }
    return Math.min(first, last) - (bend * w * w) / 8 - guards.swing(g, span, -1, this.isSlow)
  }

  /** Advance the active guards to `to`, where the exponentials are; true when one crossed. */
  private sample(span: Span, guards: Courses, activeCount: number, from: number, to: number): boolean {
    const h = to - from
    const { value, rate, tolerance } = this
    let first = Number.POSITIVE_INFINITY
    let dips = 0
    for (let i = 0; i < activeCount; i++) {
      const g = this.active[i]!
      const v0 = value[g]!
      const r0 = rate[g]!
      const v1 = guards.value(g, span, to)
      const r1 = guards.rate(g, span, to)
      value[g] = v1
      rate[g] = r1
      if (v1 < -tolerance[g]! || (r0 < 0 && r1 > 0 && dipBelow(v0, r0, v1, r1, h))) {
        dips++
        const time = this.resolve(span, guards, g, from, to, v0, v1)
        if (time < first) {
          first = time
          this.found.guard = g
          this.found.time = time
        }
        span.exponentials(to)
      }
    }
    return dips > 0 && first < Number.POSITIVE_INFINITY
  }

  /** Exact time of the first crossing of guard g between two samples, or Infinity. */
  private resolve(
    span: Span,
    guards: Courses,
    g: number,
    from: number,
    to: number,
    v0: number,
    v1: number,
  ): number {
    const tolerance = this.tolerance[g]!
    const shift = this.relax > 1 ? tolerance / 2 : 0
    let high = to
    let below = v1
    if (v1 >= -tolerance) {
      high = this.stationary(span, guards, g, from, to)
      span.exponentials(high)
      below = guards.value(g, span, high)
      if (below >= -tolerance) return Number.POSITIVE_INFINITY
    }
    if (v0 + shift <= 0) {
      // starts on the boundary: it may rise first and come back, or leave at once
      for (let share = 0.5; share > 1e-9; share /= 2) {
        const inside = from + (high - from) * share
        span.exponentials(inside)
        if (guards.value(g, span, inside) > tolerance) return this.root(span, guards, g, inside, high, 0)
      }
      return from
    }
    return this.root(span, guards, g, from, high, shift)
  }

  /** Zero of the rate between two times of opposite rate (or the nearer end). */
  private stationary(span: Span, guards: Courses, g: number, from: number, to: number): number {
    let low = from
    let high = to
    span.exponentials(low)
    const sign = guards.rate(g, span, low) < 0 ? -1 : 1
    for (let i = 0; i < 60 && high - low > 1e-13 * (to - from); i++) {
      const mid = (low + high) / 2
      span.exponentials(mid)
      if (sign * guards.rate(g, span, mid) > 0) low = mid
      else high = mid
    }
    return (low + high) / 2
  }

  /** Zero of a guard plus `shift`, positive at `from` and negative at `to`: Newton, kept inside the bracket. */
  private root(span: Span, guards: Courses, g: number, from: number, to: number, shift: number): number {
    let low = from
    let high = to
    let t = (low + high) / 2
    for (let i = 0; i < 80; i++) {
      span.exponentials(t)
      const v = guards.value(g, span, t) + shift
      if (v > 0) low = t
      else high = t
      const rate = guards.rate(g, span, t)
      let next = t - v / rate
      if (!(next > low && next < high)) next = (low + high) / 2
      const move = Math.abs(next - t)
      t = next
      if (move <= 1e-15 * to + 1e-19 || high - low <= 1e-16 * to) break
    }
    return t
  }
}

/** Can the cubic through values and rates (falling, then rising) come near zero between its ends? */
function dipBelow(v0: number, r0: number, v1: number, r1: number, h: number): boolean {
  // lowest point is above the intersection of the two tangents
  const s = (v1 - v0 - r1 * h) / (r0 - r1)
  const tangent = v0 + r0 * Math.min(Math.max(s, 0), h)
  return tangent < 0
}
