import { specById } from '../plan/checks.ts'
import type { Trace } from './types.ts'

/** Accuracy of a reading as typed, one standard deviation. */
const readingNoise = 0.05
/** Share of readings that are simply wrong: slipped lead, wrong range, misread. */
const blunder = 0.01
/** Density of a reading about which nothing is known, per unit of the stretched scale. */
const broad = 0.04
/** Room temperature from which temperatures are counted, °C. */
const room_C = 20

/** A reading on a scale that is linear below its floor and logarithmic above it, either sign. */
export function stretched(check: string, value: number): number {
  const spec = specById.get(check)
  const floor = spec?.kind === 'number' ? spec.floor : 1
  const from = spec?.kind === 'number' && spec.unit === 'C' ? room_C : 0
  const v = Math.max(-1e12, Math.min(1e12, value)) - from
  return Math.asinh(v / (2 * floor))
}

/** Standard deviation of a reading on the stretched scale: its own spread, the meter, and a part of the floor near it. */
export function deviation(check: string, trace: Extract<Trace, { kind: 'number' }>): number {
  const spec = specById.get(check)
  const floor = spec?.kind === 'number' ? spec.floor : 1
  const size = Math.abs(trace.value)
  return (
    Math.hypot(trace.spread, readingNoise) * (0.3 + 0.7 * (size / (size + floor))) +
    (0.2 * floor) / (size + floor)
  )
}

/** Natural logarithm of how likely a reading is under a trace; without a trace nothing is known. */
export function logLikelihood(check: string, trace: Trace | undefined, value: number | string): number {
  if (trace === undefined) return Math.log(typeof value === 'number' ? broad : 0.1)
  if (trace.kind === 'state') {
    const chance = typeof value === 'string' ? trace.chances[value] : undefined
    return Math.log(chance ?? 0.1)
  }
  if (typeof value !== 'number') return Math.log(broad)
  const sigma = deviation(check, trace)
  const off = (stretched(check, value) - stretched(check, trace.value)) / sigma
  const bell = Math.exp(-0.5 * off * off) / (sigma * Math.sqrt(2 * Math.PI))
  return Math.log((1 - blunder) * bell + blunder * broad)
}

/**
 * Overlap of two traces, 0 to 1 (Bhattacharyya coefficient): of two normal distributions
 * sqrt(2 s1 s2/(s1² + s2²)) exp(-(m1 - m2)²/(4 (s1² + s2²))), of chances the sum of sqrt(p q).
 * Source: Bhattacharyya, Bull. Calcutta Math. Soc. 35 (1943) 99; closed form from memory, checked by integration.
 */
export function overlap(check: string, a: Trace | undefined, b: Trace | undefined): number {
  if (a === undefined || b === undefined || a.kind !== b.kind) return 1
  if (a.kind === 'state' && b.kind === 'state') {
    let sum = 0
    let left = 0
    let right = 0
    for (const [id, p] of Object.entries(a.chances)) {
      const q = b.chances[id] ?? 0
      sum += Math.sqrt(p * q)
      left += p
      right += q
    }
    return Math.min(1, sum / Math.sqrt(left * right))
  }
  if (a.kind !== 'number' || b.kind !== 'number') return 1
  const sa = deviation(check, a)
  const sb = deviation(check, b)
  const square = sa * sa + sb * sb
  const apart = stretched(check, a.value) - stretched(check, b.value)
  return Math.sqrt((2 * sa * sb) / square) * Math.exp((-apart * apart) / (4 * square))
}
