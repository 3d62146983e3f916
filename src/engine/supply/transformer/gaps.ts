import { gapShare, postGap, spacerGaps, type WallGap } from '../../magnetics/field/index.ts'
import { coreReluctance, gapForInductance } from '../../magnetics/gap/index.ts'
import type { Design } from '../design.ts'

/** Reluctance of the core without its gap, 1/H, at the typical permeability of its ferrite. */
export const coreReluctanceOf = (d: Design): number =>
  coreReluctance(d.core.geometry.effective.C1_per_m, d.parts.material.initialPermeability.typical)

/**
 * The gap that is really there, m: from the measured inductance where the bench has read one, else as planned. 0 where
 * the core reads as if it had none.
 */
export function trueGap_m(d: Design): number {
  const t = d.transformer
  if (!t.measured.primaryInductance) return t.gap_m
  const gap = gapForInductance(
    d.core.gap[t.gapPlace],
    coreReluctanceOf(d),
    t.primaryTurns,
    t.primaryInductance_H.typical,
  )
  return gap.ok ? gap.value : 0
}

/** Inductance of one turn squared, H, of the core with the gap that is really there. */
export const inductanceFactorOf = (d: Design): number =>
  d.transformer.primaryInductance_H.typical / d.transformer.primaryTurns ** 2

/** Where the net ampere-turns drop beside the window, for the field; none without a gap. */
export function wallGaps(d: Design): readonly WallGap[] {
  const { geometry } = d.core
  const gap_m = trueGap_m(d)
  if (gap_m === 0) return []
  const share = gapShare(inductanceFactorOf(d), 1 / coreReluctanceOf(d))
  if (d.transformer.gapPlace === 'all-legs')
    return spacerGaps(gap_m, share, geometry.post.area_m2, geometry.outerLegArea_m2)
  const z_m = geometry.postGapAt === 'plate' ? (geometry.window.height_m - gap_m) / 2 : 0
  return postGap(gap_m, share, z_m)
}

/** Share of the net ampere-turns that drops in the gap; the rest drops along the ferrite. */
export const gapShareOf = (d: Design): number => gapShare(inductanceFactorOf(d), 1 / coreReluctanceOf(d))
