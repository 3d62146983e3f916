import type { Band } from './slot.ts'
import type { WindowModel } from './types.ts'

/** Strips into which a foil is cut along its width, finer near its edges and beside gaps. */
export interface FoilSegments {
  readonly row: number
  readonly band: number
  readonly centre_m: Float64Array
  readonly width_m: Float64Array
}

const samples = 600

/**
 * Cut one foil into strips whose widths follow the scale of the field there: the distance from an edge, and the
 * distance from a gap on the wall.
 */
export const cutFoil = (model: WindowModel, row: number, strips: number): FoilSegments => {
  const { band, z_m, width_m } = model.rows[row]!
  const { bottom_m, top_m }: Band = model.bands[band]!
  const low = z_m[0]! - width_m / 2
  const middle_m = (bottom_m + top_m) / 2
  const step = width_m / samples
  const cumulative = new Float64Array(samples + 1)
  for (let i = 0; i < samples; i++) {
    const z = low + (i + 0.5) * step
    const edge_m = Math.min(z - low, low + width_m - z)
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
    bounds[s] = low + (at + (wanted - cumulative[at]!) / (cumulative[at + 1]! - cumulative[at]!)) * step
  }
  return {
    row,
    band,
    centre_m: Float64Array.from({ length: strips }, (_, s) => (bounds[s]! + bounds[s + 1]!) / 2),
    width_m: Float64Array.from({ length: strips }, (_, s) => bounds[s + 1]! - bounds[s]!),
  }
}
