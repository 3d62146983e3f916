import type { Courses } from './courses.ts'
import { sampleStep } from './search.ts'
import type { Span } from './span.ts'

/**
 * Largest and smallest values of several courses over a span, exact at turning points. Courses which cannot leave the
 * band already seen (`ceiling`, `floor`, and values earlier in the span) cost only a bound.
 */
export class Extremes {
  readonly maximum: Float64Array
  readonly minimum: Float64Array
  readonly timeOfMaximum: Float64Array
  readonly timeOfMinimum: Float64Array
  /** Values which a course must exceed to be of interest, set by the caller. */
  readonly ceiling: Float64Array
  readonly floor: Float64Array
  private readonly active: Int32Array
  private readonly value: Float64Array
  private readonly rate: Float64Array

  constructor(capacity: number) {
    const n = Math.max(1, capacity)
    this.maximum = new Float64Array(n)
    this.minimum = new Float64Array(n)
    this.timeOfMaximum = new Float64Array(n)
    this.timeOfMinimum = new Float64Array(n)
    this.ceiling = new Float64Array(n)
    this.floor = new Float64Array(n)
    this.active = new Int32Array(n)
    this.value = new Float64Array(n)
    this.rate = new Float64Array(n)
  }

  /** Scan courses 0..count-1 over 0..h. */
  scan(span: Span, courses: Courses, count: number, h: number): void {
    span.exponentials(0)
    for (let r = 0; r < count; r++) {
      const v = courses.value(r, span, 0)
      this.maximum[r] = v
      this.minimum[r] = v
      this.timeOfMaximum[r] = 0
      this.timeOfMinimum[r] = 0
      this.value[r] = v
      this.rate[r] = courses.rate(r, span, 0)
      this.active[r] = r
    }
    let active = count
    let s = 0
    let samples = 0
    let step = h
    while (s < h) {
      if (samples++ % 8 === 0) {
        span.decays(s)
        active = this.narrow(span, courses, active, s, h)
        if (active === 0) break
        step = sampleStep(span, courses, this.active, active, 1e-7)
        span.exponentials(s)
        span.prepareRotation(step)
      }
      const to = Math.min(s + step, h)
      if (to < h) span.rotate()
      else span.exponentials(to)
      for (let i = 0; i < active; i++) {
        const r = this.active[i]!
        const v = courses.value(r, span, to)
        const rate = courses.rate(r, span, to)
        const before = this.rate[r]!
        this.note(r, v, to)
        if (before * rate < 0) {
          const h = to - s
          const top = before > 0
          // the two tangents meet beyond the turning point, unless the course bends both ways
          const meet = (v - this.value[r]! - rate * h) / (before - rate)
          const ends = top ? Math.max(v, this.value[r]!) : Math.min(v, this.value[r]!)
          const reach =
            meet >= 0 && meet <= h
              ? this.value[r]! + before * meet
              : ends + (top ? h : -h) * Math.max(Math.abs(before), Math.abs(rate))
          if (
            top
              ? reach > Math.max(this.maximum[r]!, this.ceiling[r]!)
              : reach < Math.min(this.minimum[r]!, this.floor[r]!)
          ) {
            const at = turningPoint(span, courses, r, s, to, before, rate)
            span.exponentials(at)
            this.note(r, courses.value(r, span, at), at)
            span.exponentials(to)
          }
        }
        this.value[r] = v
        this.rate[r] = rate
      }
      s = to
    }
    if (active < count) {
      span.exponentials(h)
      for (let r = 0; r < count; r++) this.note(r, courses.value(r, span, h), h)
    }
  }

  /** Keep of the first `count` active courses those that may leave the band seen between s and h; decays are at s. */
  private narrow(span: Span, courses: Courses, count: number, s: number, h: number): number {
    const w = h - s
    let kept = 0
    for (let i = 0; i < count; i++) {
      const r = this.active[i]!
      const p0 = courses.polynomial(r, span, s)
      const p1 = courses.polynomial(r, span, h)
      const bend = span.degree > 1 ? (courses.bend(r, span, h) * w * w) / 8 : 0
      const up = Math.max(p0, p1) + bend + courses.swing(r, span, 1)
      const down = Math.min(p0, p1) - bend - courses.swing(r, span, -1)
      const high = Math.max(this.ceiling[r]!, this.maximum[r]!)
      const low = Math.min(this.floor[r]!, this.minimum[r]!)
      if (up > high || down < low) this.active[kept++] = r
    }
    return kept
  }

  private note(r: number, v: number, s: number): void {
    if (v > this.maximum[r]!) {
      this.maximum[r] = v
      this.timeOfMaximum[r] = s
    }
    if (v < this.minimum[r]!) {
      this.minimum[r] = v
      this.timeOfMinimum[r] = s
    }
  }
}

/** Zero of the rate inside a bracket (Illinois false position). */
function turningPoint(
  span: Span,
  courses: Courses,
  r: number,
  from: number,
  to: number,
  rateFrom: number,
  rateTo: number,
): number {
  let a = from
  let b = to
  let fa = rateFrom
  let fb = rateTo
  for (let i = 0; i < 40; i++) {
    const m = b - (fb * (b - a)) / (fb - fa)
    span.exponentials(m)
    const fm = courses.rate(r, span, m)
    if (Math.abs(m - b) < 1e-7 * (to - from) || fm === 0) return m
    if (fm * fb < 0) {
      a = b
      fa = fb
    } else fa /= 2
    b = m
    fb = fm
  }
  return b
}
