import { type FeedbackPath, pathPolynomials } from './feedback-path.ts'
import { add, multiply, type Rational } from './polynomial.ts'
import type { PowerStage } from './power-stage.ts'
import { type Roots, type RootsFailure, roots } from './roots.ts'

/**
 * Loop gain T of the whole supply (positive for negative feedback): the quotient of power stage and feedback path, with
 * the reference's slow lane from its sense tap and the LED feed's fast lane from its own.
 */
export function loopGain(stage: PowerStage, path: FeedbackPath): Rational {
  const p = pathPolynomials(path)
  const sensed = path.senseTap === 'first' ? stage.toFirst : stage.toLoad
  const fed = path.ledTap === 'first' ? stage.toFirst : stage.toLoad
  return { num: add(multiply(p.slow, sensed), multiply(p.fast, fed)), den: multiply(p.den, stage.den) }
}

export interface Pole {
  readonly real_rad_per_s: number
  readonly imaginary_rad_per_s: number
  readonly frequency_Hz: number
  /** 1 for real poles in the left half-plane, 0 on the imaginary axis, negative to the right. */
  readonly damping: number
}

const toPoles = (r: Roots): Pole[] =>
  Array.from(r.re, (re, k) => {
    const im = r.im[k]!
    const size = Math.hypot(re, im)
    return {
      real_rad_per_s: re * 2000 * Math.PI,
      imaginary_rad_per_s: im * 2000 * Math.PI,
      frequency_Hz: size * 1000,
      damping: size > 0 ? -re / size : 0,
    }
  }).sort((a, b) => a.frequency_Hz - b.frequency_Hz)

/** Poles of T/(1 + T): roots of num + den. */
export function closedLoopPoles(
  T: Rational,
): { readonly ok: true; readonly poles: readonly Pole[] } | RootsFailure {
  const r = roots(add(T.num, T.den))
  return r.ok ? { ok: true, poles: toPoles(r) } : r
}

export function openLoopPoles(
  T: Rational,
): { readonly ok: true; readonly poles: readonly Pole[] } | RootsFailure {
  const r = roots(T.den)
  return r.ok ? { ok: true, poles: toPoles(r) } : r
}
