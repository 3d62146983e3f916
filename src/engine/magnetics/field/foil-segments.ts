import type { Band } from './slot.ts'
import type { WindowModel } from './types.ts'
import { axialTable } from './window-field.ts'

/** Strips into which a foil is cut along its width, finer near its edges and beside gaps. */
export interface FoilSegments {
  readonly row: number
  readonly band: number
  readonly centre_m: Float64Array
  readonly width_m: Float64Array
  /** cos(n π z/h) of each strip's middle, z from the lower plate, n = 0 … harmonics. */
  readonly cosine: readonly Float64Array[]
  /** 2 where each strip stands for itself and its mirror image beyond the middle, which share one current. */
  readonly sides: 1 | 2
}

/** Whether wires and gaps of a window lie alike above and below its middle. */
export const isSymmetric = ({ rows, gaps, slot }: WindowModel): boolean => {
  const near = (a: number, b: number): boolean => Math.abs(a - b) < 1e-9 * slot.height_m
  return (
    rows.every(({ z_m }) => z_m.every((z, i) => near(z, -z_m[z_m.length - 1 - i]!))) &&
    gaps.every((gap) =>
      gaps.some(
        (other) =>
          near(other.z_m, -gap.z_m) &&
          near(other.length_m, gap.length_m) &&
          other.wall === gap.wall &&
          other.share === gap.share,
      ),
    )
  )
}

const samples = 600

/**
 * Cut one foil, or its upper half where `sides` is 2, into strips whose widths follow the scale of the field there: the distance from an edge, and the
 * distance from a gap on the wall.
 */
export const cutFoil = (model: WindowModel, row: number, strips: number, sides: 1 | 2): FoilSegments => {
  const { band, z_m, width_m } = model.rows[row]!
  const { bottom_m, top_m }: Band = model.bands[band]!
  const end = z_m[0]! + width_m / 2
  const start = sides === 2 ? z_m[0]! : end - width_m
  const middle_m = (bottom_m + top_m) / 2
  const step = (end - start) / samples
  const cumulative = new Float64Array(samples + 1)
  for (let i = 0; i < samples; i++) {
    const z = start + (i + 0.5) * step
    const edge_m = Math.min(z - (end - width_m), end - z)
    let scale_m = Math.min(0.25 * edge_m + 0.004 * width_m, width_m / 8)
    for (const gap of model.gaps) {
      const wall_m = gap.wall === 'post' ? model.slot.inner_m : model.slot.outer_m
      scale_m = Math.min(scale_m, 0.35 * Math.hypot(z - gap.z_m, middle_m - wall_m))
    }
    cumulative[i + 1] = cumulative[i]! + step / scale_m
  }
  const bounds = new Float64Array(strips + 1)
  let at = 0
  for (let s = 0; s <= strips; s++) {
    const wanted = (cumulative[samples]! * s) / strips
    while (at < samples - 1 && cumulative[at + 1]! < wanted) at++
    bounds[s] = start + (at + (wanted - cumulative[at]!) / (cumulative[at + 1]! - cumulative[at]!)) * step
  }
  const centre_m = Float64Array.from({ length: strips }, (_, s) => (bounds[s]! + bounds[s + 1]!) / 2)
  return {
    row,
    band,
    centre_m,
    cosine: Array.from(centre_m, (z_m) => axialTable(z_m, model.slot.height_m, model.harmonics).cosine),
    width_m: Float64Array.from({ length: strips }, (_, s) => bounds[s + 1]! - bounds[s]!),
    sides,
  }
}
