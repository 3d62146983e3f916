import { factorBand, gapPermeance, gapRange } from '../../magnetics/gap/index.ts'
import { inductanceAtCurrent, kneeAt, type WoundCore } from '../../magnetics/material/index.ts'
import type { Design } from '../design.ts'
import { trueGap_m } from './gaps.ts'

/** Inductance over something, with a band where tolerances give one. */
export interface InductanceCurve {
  readonly x: readonly number[]
  readonly typical_H: readonly number[]
  readonly minimum_H: readonly number[]
  readonly maximum_H: readonly number[]
}

/** Part of a gap by which a hand-set one may be off; the trade expects inductance within 10 %. */
const gapTolerance = 0.1

/**
 * Inductance of the primary against the gap, in the place where the gap sits, from a fifth to five times the gap of the
 * design (at most a third of the window); the band is that of the ferrite's permeability and of 10 % of the gap.
 */
export function inductanceAgainstGap(d: Design, points = 60): InductanceCurve {
  const t = d.transformer
  const model = d.core.gap[t.gapPlace]
  const middle_m = Math.max(t.gap_m, t.aimedGap_m, 20e-6)
  const from_m = middle_m / 5
  const to_m = Math.min(middle_m * 5, model.greatest_m / (1 + gapTolerance))
  const squares = t.primaryTurns ** 2
  const x: number[] = []
  const minimum_H: number[] = []
  const typical_H: number[] = []
  const maximum_H: number[] = []
  for (let i = 0; i < points; i++) {
    const gap_m = from_m * (to_m / from_m) ** (i / (points - 1))
    if (!gapRange(model, gap_m).ok) break
    const band = factorBand(model, d.core.geometry.effective.C1_per_m, d.parts.material.initialPermeability, {
      minimum: gap_m * (1 - gapTolerance),
      typical: gap_m,
      maximum: gap_m * (1 + gapTolerance),
    })
    if (!band.ok) break
    x.push(gap_m)
    minimum_H.push(squares * band.value.minimum)
    typical_H.push(squares * band.value.typical)
    maximum_H.push(squares * band.value.maximum)
  }
  return { x, typical_H, minimum_H, maximum_H }
}

/** The core of a design as one iron path with its gap, saturating in its least section, at a temperature. */
export const woundCoreAt = (d: Design, temperature_C: number): WoundCore => {
  const { effective } = d.core.geometry
  const gap_m = trueGap_m(d)
  return {
    turns: d.transformer.primaryTurns,
    area_m2: effective.minimumArea_m2,
    length_m: effective.C1_per_m * effective.minimumArea_m2,
    gapPermeance_H:
      gap_m === 0 ? Number.POSITIVE_INFINITY : gapPermeance(d.core.gap[d.transformer.gapPlace], gap_m),
    knee: kneeAt(d.ferrite.curve, temperature_C),
  }
}

/**
 * Differential inductance of the primary against its current at a core temperature, up to `most_A`. Currents at which
 * the curve of the ferrite gives no answer are left out.
 */
export function inductanceAgainstCurrent(
  d: Design,
  temperature_C: number,
  most_A: number,
  points = 80,
): { readonly x: readonly number[]; readonly inductance_H: readonly number[] } {
  const core = woundCoreAt(d, temperature_C)
  const x: number[] = []
  const inductance_H: number[] = []
  for (let i = 0; i < points; i++) {
    const current_A = (most_A * i) / (points - 1)
    const inductance = inductanceAtCurrent(core, current_A)
    if (!inductance.ok) continue
    x.push(current_A)
    inductance_H.push(inductance.value)
  }
  return { x, inductance_H }
}
