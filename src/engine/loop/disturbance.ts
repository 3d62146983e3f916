import { type FeedbackPath, type PathPolynomials, pathPolynomials } from './feedback-path.ts'
import type { OutputFilter } from './output-filter.ts'
import { type FilterPort, filterPort } from './output-filter.ts'
import { type Polynomial, scale_rad_per_s } from './polynomial.ts'
import type { PowerStage, StageEquations } from './power-stage.ts'

/** What is disturbed: current drawn at the load, A, or bulk voltage, V. */
export type Disturbance = 'load-current' | 'bulk-voltage'

/** Closed-loop response of the voltage at the load to a disturbance, evaluated anywhere in the complex plane. */
export class DisturbanceResponse {
  private readonly e: StageEquations
  private readonly port: FilterPort
  private readonly path: PathPolynomials | null
  private readonly senseFirst: boolean
  private readonly ledFirst: boolean
  private readonly kind: Disturbance
  /** Rows of the complex system for i, v1, v2, d and its right side: 4 rows of 5 columns. */
  private readonly re = new Float64Array(20)
  private readonly im = new Float64Array(20)

  /** `path` null: loop open, control input held. */
  constructor(stage: PowerStage, filter: OutputFilter, path: FeedbackPath | null, kind: Disturbance) {
    this.e = stage.equations
    this.port = filterPort(filter, stage.equations.conductance_S)
    this.path = path === null ? null : pathPolynomials(path)
    this.senseFirst = path?.senseTap === 'first'
    this.ledFirst = path?.ledTap === 'first'
    this.kind = kind
  }

  /** Writes v_load per unit of disturbance at s = sr + j si (rad/s) into `out`. */
  at(sr: number, si: number, out: Float64Array): void {
    const { e, re, im } = this
    re.fill(0)
    im.fill(0)
    const x = { r: sr / scale_rad_per_s, i: si / scale_rad_per_s }
    const den = value(this.port.den, x)
    const z11 = divide(value(this.port.n11, x), den)
    const z12 = divide(value(this.port.n12, x), den)
    const z22 = divide(value(this.port.n22, x), den)
    const load = this.kind === 'load-current' ? 1 : 0
    const line = 1 - load

    this.put(0, 0, e.loop_ohm + sr * e.inductance_H, si * e.inductance_H)
    this.put(0, 1, e.back, 0)
    this.put(0, 3, -e.drive_V, 0)
    this.put(0, 4, e.feed * line, 0)
    for (const [row, z, zLoad] of [
      [1, z11, z12],
      [2, z12, z22],
    ] as const) {
      this.put(row, row, 1, 0)
      this.put(row, 0, -e.carry * z.r, -e.carry * z.i)
      this.put(row, 3, e.steal_A * z.r, e.steal_A * z.i)
      this.put(
        row,
        4,
        -zLoad.r * load - e.stealInput_S * z.r * line,
        -zLoad.i * load - e.stealInput_S * z.i * line,
      )
    }
    this.put(3, 3, 1, 0)
    const g = e.modulatorGain
    if (e.senses) {
      const T = e.samplePeriod_s
      const k = (T / Math.PI) ** 2
      this.put(3, 0, g * (1 - (sr * T) / 2 + k * (sr * sr - si * si)), g * (-(si * T) / 2 + 2 * k * sr * si))
      this.put(3, 1, -g * e.ahead, 0)
    }
    this.put(3, 4, g * e.line_S * line, 0)
    if (this.path !== null) {
      const d = value(this.path.den, x)
      const slow = divide(value(this.path.slow, x), d)
      const fast = divide(value(this.path.fast, x), d)
      this.put(3, this.senseFirst ? 1 : 2, g * slow.r, g * slow.i)
      this.put(3, this.ledFirst ? 1 : 2, g * fast.r, g * fast.i)
    }
    this.eliminate()
    out[0] = re[14]!
    out[1] = im[14]!
  }

  private put(row: number, column: number, r: number, i: number): void {
    this.re[row * 5 + column]! += r
    this.im[row * 5 + column]! += i
  }

  /** Gauss-Jordan with row pivoting; the solution is left in column 4. */
  private eliminate(): void {
    const { re, im } = this
    for (let c = 0; c < 4; c++) {
      let best = c
      for (let r = c + 1; r < 4; r++)
        if (Math.hypot(re[r * 5 + c]!, im[r * 5 + c]!) > Math.hypot(re[best * 5 + c]!, im[best * 5 + c]!))
          best = r
      if (best !== c)
        for (let k = 0; k < 5; k++) {
          const a = re[c * 5 + k]!
          const b = im[c * 5 + k]!
          re[c * 5 + k] = re[best * 5 + k]!
          im[c * 5 + k] = im[best * 5 + k]!
          re[best * 5 + k] = a
          im[best * 5 + k] = b
        }
      const pr = re[c * 5 + c]!
      const pi = im[c * 5 + c]!
      const size = pr * pr + pi * pi
      for (let k = c; k < 5; k++) {
        const a = re[c * 5 + k]!
        const b = im[c * 5 + k]!
        re[c * 5 + k] = (a * pr + b * pi) / size
        im[c * 5 + k] = (b * pr - a * pi) / size
      }
      for (let r = 0; r < 4; r++) {
        if (r === c) continue
        const fr = re[r * 5 + c]!
        const fi = im[r * 5 + c]!
        if (fr === 0 && fi === 0) continue
        for (let k = c; k < 5; k++) {
          const a = re[c * 5 + k]!
          const b = im[c * 5 + k]!
          re[r * 5 + k]! -= fr * a - fi * b
          im[r * 5 + k]! -= fr * b + fi * a
        }
      }
    }
  }
}

interface Complex {
  readonly r: number
  readonly i: number
}

function value(p: Polynomial, x: Complex): Complex {
  let r = 0
  let i = 0
  for (let k = p.length - 1; k >= 0; k--) {
    const t = r * x.r - i * x.i + p[k]!
    i = r * x.i + i * x.r
    r = t
  }
  return { r, i }
}

function divide(a: Complex, b: Complex): Complex {
  const size = b.r * b.r + b.i * b.i
  return { r: (a.r * b.r + a.i * b.i) / size, i: (a.i * b.r - a.r * b.i) / size }
}
