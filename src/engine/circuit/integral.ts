import { type Chain, chainReach } from './chain.ts'
import type { Courses } from './courses.ts'
import { chainMotion, gramian, type Motion, modeMotion } from './gramian.ts'
import { maxDegree } from './source.ts'
import type { Span } from './span.ts'

const stride = maxDegree + 2

/**
 * Exact integrals of courses and of their products over 0..h. Modes and chains slow against h are folded into the
 * polynomial, so that no quotient is formed from nearly equal numbers; products with fast chains come from `gramian`.
 */
export class Integrator {
  private h = 0
  private count = 0
  private degree = 0
  /** Fast modes left (index into the span's list). */
  private readonly kept: Int32Array
  private readonly folded: Int32Array
  private foldedCount = 0
  /** Powers of t/h of the folded modes, by their place in the span's list. */
  private readonly foldRe: Float64Array
  private readonly foldIm: Float64Array
  /** Chains left: first place in `kept`. */
  private readonly chains: { chain: Chain; at: number }[] = []
  /** Modes kept before the first of a chain. */
  private keptSingles = 0
  /** lambda h and e^(lambda h) of the kept modes. */
  private readonly lRe: Float64Array
  private readonly lIm: Float64Array
  private readonly eRe: Float64Array
  private readonly eIm: Float64Array
  /** J_j = integral over 0..1 of t^j e^(lambda h t), per kept mode. */
  private readonly jRe: Float64Array
  private readonly jIm: Float64Array
  /** Pair integrals of kept modes: with the other mode, and with its conjugate. */
  private readonly pair: Float64Array
  private readonly poly: [Float64Array, Float64Array] = [new Float64Array(stride), new Float64Array(stride)]
  private readonly modes: number
  private pairsReady = false

  constructor(states: number) {
    const n = Math.max(1, states)
    this.modes = n
    this.kept = new Int32Array(n)
    this.folded = new Int32Array(n)
    this.foldRe = new Float64Array(n * stride)
    this.foldIm = new Float64Array(n * stride)
    this.lRe = new Float64Array(n)
    this.lIm = new Float64Array(n)
    this.eRe = new Float64Array(n)
    this.eIm = new Float64Array(n)
    this.jRe = new Float64Array(n * stride)
    this.jIm = new Float64Array(n * stride)
    this.pair = new Float64Array(n * n * 4)
  }

  /** Prepare for integrals over 0..h of courses on this span; exponentials must be at h. */
  begin(span: Span, h: number): void {
    this.h = h
    this.count = 0
    this.foldedCount = 0
    this.degree = span.degree
    this.pairsReady = false
    for (let f = 0; f < span.fastSingles; f++) {
      const re = span.sigma[f]! * h
      const im = span.omega[f]! * h
      if (Math.abs(re) + im < 0.5) {
        this.foldMode(f, re, im)
        continue
      }
      const k = this.count++
      this.kept[k] = f
      this.lRe[k] = re
      this.lIm[k] = im
      this.eRe[k] = span.expRe[f]!
      this.eIm[k] = span.expIm[f]!
    }
    this.keptSingles = this.count
    this.chains.length = 0
    for (const { chain, at } of span.chains) {
      if (chain.fastest * h < chainReach(chain.size)) {
        this.foldChain(chain, at)
        continue
      }
      this.chains.push({ chain, at: this.count })
      for (let i = 0; i < chain.size; i++) {
        const k = this.count++
        this.kept[k] = at + i
        this.eRe[k] = span.expRe[at + i]!
      }
    }
    if (this.foldedCount > 0) this.degree = maxDegree
    for (let k = 0; k < this.keptSingles; k++) {
      const re = this.lRe[k]!
      const im = this.lIm[k]!
      const size = re * re + im * im
      let jRe = 0
      let jIm = 0
      for (let j = 0; j <= this.degree; j++) {
        const aRe = this.eRe[k]! - (j === 0 ? 1 : j * jRe)
        const aIm = this.eIm[k]! - (j === 0 ? 0 : j * jIm)
        jRe = (aRe * re + aIm * im) / size
        jIm = (aIm * re - aRe * im) / size
        this.jRe[k * stride + j] = jRe
        this.jIm[k * stride + j] = jIm
      }
    }
    for (const { chain, at } of this.chains) this.momentsOf(chain, at)
  }

  /** Powers of a folded mode. */
  private foldMode(f: number, lRe: number, lIm: number): void {
    this.folded[this.foldedCount++] = f
    let re = 1
    let im = 0
    for (let j = 0; j <= maxDegree; j++) {
      this.foldRe[f * stride + j] = re
      this.foldIm[f * stride + j] = im
      const next = (re * lRe - im * lIm) / (j + 1)
      im = (re * lIm + im * lRe) / (j + 1)
      re = next
    }
  }

  /** Powers of the courses of a folded chain: (H h)^j f(0) / j!. */
  private foldChain({ size, flow }: Chain, at: number): void {
    const { foldRe, foldIm } = this
    for (let i = 0; i < size; i++) {
      this.folded[this.foldedCount++] = at + i
      foldRe[(at + i) * stride] = i === 0 ? 1 : 0
      foldIm.fill(0, (at + i) * stride, (at + i + 1) * stride)
    }
    for (let j = 1; j <= maxDegree; j++)
      for (let i = 0; i < size; i++) {
        let value = 0
        for (let l = 0; l < size; l++) value += flow[i * size + l]! * foldRe[(at + l) * stride + j - 1]!
        foldRe[(at + i) * stride + j] = (value * this.h) / j
      }
  }

  /** J_j of the courses of a chain: J_j = (H h)^-1 (f(1) - [j = 0] f(0) - j J_(j-1)). */
  private momentsOf({ size, flowInverse }: Chain, at: number): void {
    const { jRe, jIm } = this
    const rhs = new Float64Array(size)
    for (let j = 0; j <= this.degree; j++) {
      for (let i = 0; i < size; i++) {
        const k = at + i
        rhs[i] = this.eRe[k]! - (j > 0 ? j * jRe[k * stride + j - 1]! : i === 0 ? 1 : 0)
      }
      for (let i = 0; i < size; i++) {
        let value = 0
        for (let l = 0; l < size; l++) value += flowInverse![i * size + l]! * rhs[l]!
        jRe[(at + i) * stride + j] = value / this.h
        jIm[(at + i) * stride + j] = 0
      }
    }
  }

  /** Polynomial of a course in t/h with the slow exponentials folded in. */
  private load(slot: 0 | 1, courses: Courses, r: number, span: Span): Float64Array {
    const out = this.poly[slot]
    let power = 1
    for (let j = 0; j <= this.degree; j++) {
      out[j] = j <= span.degree ? courses.poly[r * stride + j]! * power : 0
      power *= this.h
    }
    for (let i = 0; i < this.foldedCount; i++) {
      const f = this.folded[i]!
      const re = courses.ampRe[r * courses.modes + f]!
      const im = courses.ampIm[r * courses.modes + f]!
      if (re === 0 && im === 0) continue
      const from = f * stride
      for (let j = 0; j <= this.degree; j++)
        out[j]! += re * this.foldRe[from + j]! - im * this.foldIm[from + j]!
    }
    return out
  }

  /** Integral of a course. */
  integral(span: Span, courses: Courses, r: number): number {
    const p = this.load(0, courses, r, span)
    let total = 0
    for (let j = this.degree; j >= 0; j--) total += p[j]! / (j + 1)
    for (let k = 0; k < this.count; k++) {
      const at = r * courses.modes + this.kept[k]!
      total += courses.ampRe[at]! * this.jRe[k * stride]! - courses.ampIm[at]! * this.jIm[k * stride]!
    }
    return total * this.h
  }

  /** Integral of the product of two courses (of the same or of different sets) on this span. */
  product(span: Span, one: Courses, r: number, other: Courses, q: number): number {
    const p1 = this.load(0, one, r, span)
    const same = one === other && r === q
    const p2 = same ? p1 : this.load(1, other, q, span)
    let total = 0
    for (let i = 0; i <= this.degree; i++) {
      const a = p1[i]!
      if (a === 0) continue
      let part = 0
      for (let j = 0; j <= this.degree; j++) part += p2[j]! / (i + j + 1)
      total += a * part
    }
    if (this.count > 0) {
      if (!this.pairsReady) this.preparePairs()
      total += this.mixed(one, r, p2) + (same ? this.mixed(one, r, p2) : this.mixed(other, q, p1))
      total += this.fastProduct(one, r, other, q)
    }
    return total * this.h
  }

  /** Polynomial times the exponentials of a course. */
  private mixed(courses: Courses, r: number, p: Float64Array): number {
    let total = 0
    for (let k = 0; k < this.count; k++) {
      const at = r * courses.modes + this.kept[k]!
      const a = courses.ampRe[at]!
      const b = courses.ampIm[at]!
      if (a === 0 && b === 0) continue
      let re = 0
      let im = 0
      for (let j = 0; j <= this.degree; j++) {
        re += p[j]! * this.jRe[k * stride + j]!
        im += p[j]! * this.jIm[k * stride + j]!
      }
      total += a * re - b * im
    }
    return total
  }

  /** Re(a e^l t) Re(b e^m t) = (Re(a b e^(l+m)t) + Re(a conj(b) e^(l + conj m)t)) / 2. */
  private fastProduct(one: Courses, r: number, other: Courses, q: number): number {
    let total = 0
    const { pair, modes } = this
    for (let k = 0; k < this.count; k++) {
      const ak = r * one.modes + this.kept[k]!
      const aRe = one.ampRe[ak]!
      const aIm = one.ampIm[ak]!
      if (aRe === 0 && aIm === 0) continue
      for (let m = 0; m < this.count; m++) {
        const bm = q * other.modes + this.kept[m]!
        const bRe = other.ampRe[bm]!
        const bIm = other.ampIm[bm]!
        const at = (k * modes + m) * 4
        total += (aRe * bRe - aIm * bIm) * pair[at]! - (aRe * bIm + aIm * bRe) * pair[at + 1]!
        total += (aRe * bRe + aIm * bIm) * pair[at + 2]! - (aIm * bRe - aRe * bIm) * pair[at + 3]!
      }
    }
    return total / 2
  }

  private preparePairs(): void {
    const { pair, modes, lRe, lIm, eRe, eIm } = this
    for (let k = 0; k < this.keptSingles; k++)
      for (let m = 0; m < this.keptSingles; m++)
        for (let side = 1; side >= -1; side -= 2) {
          const re = lRe[k]! + lRe[m]!
          const im = lIm[k]! + side * lIm[m]!
          const at = (k * modes + m) * 4 + (side === 1 ? 0 : 2)
          if (re * re + im * im < 1e-8) {
            pair[at] = 1 + re / 2
            pair[at + 1] = im / 2
            continue
          }
          const pRe = eRe[k]! * eRe[m]! - side * eIm[k]! * eIm[m]! - 1
          const pIm = side * eRe[k]! * eIm[m]! + eIm[k]! * eRe[m]!
          const size = re * re + im * im
          pair[at] = (pRe * re + pIm * im) / size
          pair[at + 1] = (pIm * re - pRe * im) / size
        }
    this.chains.forEach((one, i) => {
      for (let k = 0; k < this.keptSingles; k++) this.pairWithMode(one.chain, one.at, k)
      for (const other of this.chains.slice(0, i + 1)) this.pairChains(one, other)
    })
    this.pairsReady = true
  }

  private motion(chain: Chain, at: number): Motion {
    return chainMotion(chain, this.eRe.subarray(at, at + chain.size))
  }

  /** Integrals of the courses of a chain times the mode k, which has real and imaginary part. */
  private pairWithMode(chain: Chain, at: number, k: number): void {
    const { pair, modes, h } = this
    const mode = modeMotion(this.lRe[k]! / h, this.lIm[k]! / h, this.eRe[k]!, this.eIm[k]!)
    const g = gramian(this.motion(chain, at), mode, h)
    for (let i = 0; i < chain.size; i++) {
      const gRe = g[2 * i]!
      const gIm = g[2 * i + 1]!
      const first = ((at + i) * modes + k) * 4
      pair[first] = gRe
      pair[first + 1] = gIm
      pair[first + 2] = gRe
      pair[first + 3] = -gIm
      pair.set([gRe, gIm, gRe, gIm], (k * modes + at + i) * 4)
    }
  }

  private pairChains(one: { chain: Chain; at: number }, other: { chain: Chain; at: number }): void {
    const { pair, modes } = this
    const g = gramian(this.motion(one.chain, one.at), this.motion(other.chain, other.at), this.h)
    for (let i = 0; i < one.chain.size; i++)
      for (let j = 0; j < other.chain.size; j++) {
        const value = g[i * other.chain.size + j]!
        pair.set([value, 0, value, 0], ((one.at + i) * modes + other.at + j) * 4)
        pair.set([value, 0, value, 0], ((other.at + j) * modes + one.at + i) * 4)
      }
  }
}
