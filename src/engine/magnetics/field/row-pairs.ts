import type { WindowModel } from './types.ts'

/**
 * cosh and sinh of π x/h for every pair of rows and the three ways x in which a wire of one sees a wire of the other:
 * directly, by the mirror image in the post, by that in the outer leg. Index ((row · rows + row′) · 3 + way).
 */
export interface RowPairs {
  readonly rows: number
  readonly cosh: Float64Array
  readonly sinh: Float64Array
}

export const rowPairs = (model: WindowModel): RowPairs => {
  const { slot, bands } = model
  const rows = model.rows.length
  const cosh = new Float64Array(rows * rows * 3)
  const sinh = new Float64Array(rows * rows * 3)
  const middle = model.rows.map(({ band }) => (bands[band]!.bottom_m + bands[band]!.top_m) / 2)
  for (let a = 0; a < rows; a++)
    for (let b = 0; b < rows; b++) {
      const ways = [
        middle[a]! - middle[b]!,
        middle[a]! + middle[b]! - 2 * slot.inner_m,
        middle[a]! + middle[b]! - 2 * slot.outer_m,
      ]
      ways.forEach((x, way) => {
        const at = (a * rows + b) * 3 + way
        cosh[at] = Math.cosh((Math.PI * x) / slot.height_m)
        sinh[at] = Math.sinh((Math.PI * x) / slot.height_m)
      })
    }
  return { rows, cosh, sinh }
}
