import type { WallGap } from './types.ts'

/**
 * Share of the net ampere-turns that drops across the gaps, from the permeances (inductance per turn squared) of the
 * core with and without them: 1 − P_gapped/P_ungapped. The rest drops along the ferrite.
 */
export const gapShare = (gapped_H: number, ungapped_H: number): number =>
  Math.min(1, Math.max(0, 1 - gapped_H / ungapped_H))

/** One gap ground into the post, at mid-height unless told otherwise. */
export const postGap = (length_m: number, share: number, z_m = 0): WallGap[] => [
  { wall: 'post', z_m, length_m, share },
]

/** The same gap in several equal parts, spread evenly along a window of this height. */
export const spreadGap = (length_m: number, share: number, parts: number, height_m: number): WallGap[] =>
  Array.from({ length: parts }, (_, i) => ({
    wall: 'post' as const,
    z_m: ((i + 0.5) / parts - 0.5) * height_m,
    length_m: length_m / parts,
    share: share / parts,
  }))

/**
 * A spacer of this thickness under all legs: the same flux crosses both gaps, so each takes ampere-turns in inverse
 * proportion to its area.
 */
export const spacerGaps = (
  thickness_m: number,
  share: number,
  postArea_m2: number,
  outerArea_m2: number,
): WallGap[] => {
  const post = (share * outerArea_m2) / (postArea_m2 + outerArea_m2)
  return [
    { wall: 'post', z_m: 0, length_m: thickness_m, share: post },
    { wall: 'outer', z_m: 0, length_m: thickness_m, share: share - post },
  ]
}
