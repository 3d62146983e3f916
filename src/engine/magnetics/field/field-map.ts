import type { StackField } from './stack-field.ts'
import { axialTable, solveWindow } from './window-field.ts'

/** Flux density over the window, for drawing: column by column outward, each from the lower plate up. */
export interface FieldMap {
  readonly columns: number
  readonly rows: number
  /** Distance of each column above the barrel (negative: inside the former) and height of each row from mid-height. */
  readonly x_m: Float64Array
  readonly z_m: Float64Array
  /** Index column · rows + row. */
  readonly axial_T: Float64Array
  readonly radial_T: Float64Array
}

/**
 * Static field of given winding currents over the section inside the core. Inside conductors it is the field with
 * their current spread evenly.
 */
export const fieldMap = (
  field: StackField,
  currents_A: readonly number[],
  columns: number,
  rows: number,
): FieldMap => {
  const { model } = field.sections[0]!.section
  const { slot } = model
  const step_m = (slot.outer_m - slot.inner_m) / columns
  const probe_m = Math.min(step_m / 8, 2e-6)
  const r_m = Float64Array.from({ length: columns }, (_, c) => slot.inner_m + (c + 0.5) * step_m)
  const solved = solveWindow({
    ...model,
    bands: [...model.bands, ...Array.from(r_m, (r) => ({ bottom_m: r - probe_m, top_m: r + probe_m }))],
  })
  const windings = model.turns.length
  const bands = model.bands.length + columns
  const z_m = Float64Array.from({ length: rows }, (_, r) => ((r + 0.5) / rows - 0.5) * slot.height_m)
  const axial_T = new Float64Array(columns * rows)
  const radial_T = new Float64Array(columns * rows)
  for (let r = 0; r < rows; r++) {
    const { cosine, sine } = axialTable(z_m[r]!, slot.height_m, model.harmonics)
    for (let c = 0; c < columns; c++) {
      let axial = 0
      let radial = 0
      for (let n = 0; n <= model.harmonics; n++) {
        const at = (n * bands + model.bands.length + c) * windings
        for (let w = 0; w < windings; w++) {
          axial += currents_A[w]! * solved.axial_T[at + w]! * cosine[n]!
          radial += currents_A[w]! * solved.radial_T[at + w]! * sine[n]!
        }
      }
      axial_T[c * rows + r] = axial
      radial_T[c * rows + r] = radial
    }
  }
  return {
    columns,
    rows,
    x_m: r_m.map((r) => r - field.layout.barrelRadius_m),
    z_m,
    axial_T,
    radial_T,
  }
}
