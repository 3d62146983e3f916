import { vacuumPermeability_H_per_m } from '../wire/index.ts'
import type { WindowModel } from './types.ts'
import { axialTable, type WindowField } from './window-field.ts'

/** What the current of a row flows in, as far as eddy currents care. */
export type Conductor =
  | { readonly kind: 'round'; readonly diameter_m: number }
  | {
      readonly kind: 'litz'
      readonly strand_m: number
      readonly strands: number
      readonly bundle_m: number
      /** Length of strand for a length of bundle. */
      readonly lay: number
    }
  | { readonly kind: 'foil'; readonly thickness_m: number }
  /** Current that is taken as spread evenly at every frequency. */
  | { readonly kind: 'even' }

/** Every round conductor of a window: where it lies, how long it is, which row it belongs to. */
export interface WirePoints {
  readonly count: number
  readonly row: Int32Array
  readonly r_m: Float64Array
  readonly z_m: Float64Array
  /** cos and sin of n π z/h, n = 0 … harmonics, of each, z from the lower plate. */
  readonly tables: readonly { readonly cosine: Float64Array; readonly sine: Float64Array }[]
  /** cos and sin of π z/h, z from the lower plate. */
  readonly cosine: Float64Array
  readonly sine: Float64Array
}

export const wirePoints = (model: WindowModel, rows: readonly number[]): WirePoints => {
  const count = rows.reduce((sum, row) => sum + model.rows[row]!.z_m.length, 0)
  const tables = rows.flatMap((row) =>
    Array.from(model.rows[row]!.z_m, (z_m) => axialTable(z_m, model.slot.height_m, model.harmonics)),
  )
  const points: WirePoints = {
    count,
    tables,
    row: new Int32Array(count),
    r_m: new Float64Array(count),
    z_m: new Float64Array(count),
    cosine: new Float64Array(count),
    sine: new Float64Array(count),
  }
  let at = 0
  for (const row of rows) {
    const { band, z_m } = model.rows[row]!
    const { bottom_m, top_m } = model.bands[band]!
    for (const z of z_m) {
      const angle = Math.PI * (z / model.slot.height_m + 0.5)
      points.row[at] = row
      points.r_m[at] = (bottom_m + top_m) / 2
      points.z_m[at] = z
      points.cosine[at] = Math.cos(angle)
      points.sine[at] = Math.sin(angle)
      at++
    }
  }
  return points
}

/**
 * Static field at each conductor for one ampere in each winding (A/m): pairs (Hz, Hr), index
 * (winding · count + point) · 2. The conductor's own even current adds nothing at its centre.
 */
export const fieldAtPoints = (field: WindowField, points: WirePoints): Float64Array => {
  const { model, axial_T, radial_T } = field
  const windings = model.turns.length
  const bands = model.bands.length
  const result = new Float64Array(windings * points.count * 2)
  for (let p = 0; p < points.count; p++) {
    const { cosine, sine } = points.tables[p]!
    const band = model.rows[points.row[p]!]!.band
    for (let w = 0; w < windings; w++) {
      let axial = 0
      let radial = 0
      for (let n = 0, at = band * windings + w; n <= model.harmonics; n++, at += bands * windings) {
        axial += axial_T[at]! * cosine[n]!
        radial += radial_T[at]! * sine[n]!
      }
      const to = (w * points.count + p) * 2
      result[to] = axial / vacuumPermeability_H_per_m
      result[to + 1] = radial / vacuumPermeability_H_per_m
    }
  }
  return result
}
