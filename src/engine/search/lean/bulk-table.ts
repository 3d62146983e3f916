import type { Condition } from '../../supply/condition.ts'
import { type InputSide, inputSide } from '../../supply/evaluate/input-side.ts'
import type { Plant } from '../../supply/evaluate/plant.ts'

/** Quantities of the mains side that a stage needs, at one power each. */
const fields = 10
const stepsPerReach = 36
/** Powers that a table reaches over the least the stage can draw; beyond it the whole evaluation decides. */
const usualReach = 2.2
const beyond_W = 3

/** The mains side at one end of the input and one bulk capacitance, over the power drawn from it. */
export interface BulkTable {
  readonly from_W: number
  readonly step_W: number
  /** How many powers hold; the bulk collapses beyond. */
  readonly count: number
  readonly collapses: boolean
  /** Even row stride of `fields`: minimum, average, maximum V; bridge, thermistor, fuse, bleed W; input A; ripple A; diode A. */
  readonly values: Float64Array
}

/** One row of a table, reused from call to call. */
export interface BulkPoint {
  minimum_V: number
  average_V: number
  maximum_V: number
  /** Bridge, thermistor and fuse. */
  series_W: number
  bridge_W: number
  bleed_W: number
  input_Arms: number
  ripple_Arms: number
  diode_Aaverage: number
}

export const newBulkPoint = (): BulkPoint => ({
  minimum_V: 0,
  average_V: 0,
  maximum_V: 0,
  series_W: 0,
  bridge_W: 0,
  bleed_W: 0,
  input_Arms: 0,
  ripple_Arms: 0,
  diode_Aaverage: 0,
})

/** Solves the mains side at evenly spaced powers, each as a settled operating point would. */
export function bulkTable(
  p: Plant,
  input: Condition['input'],
  capacitance_F: number,
  least_W: number,
  reach = usualReach,
): BulkTable {
  const steps = Math.round(stepsPerReach * reach)
  const step_W = ((reach - 1) * least_W + beyond_W) / (steps - 1)
  const values = new Float64Array(steps * fields)
  let count = 0
  for (; count < steps; count++) {
    const side = settledSide(p, input, capacitance_F, least_W + count * step_W)
    if (side === null) break
    const { bulk } = side
    values.set(
      [
        bulk.minimum_V,
        bulk.average_V,
        bulk.maximum_V,
        side.bridge_W,
        side.thermistor_W,
        side.fuse_W,
        side.bleed_W,
        bulk.input_Arms,
        bulk.capacitorRipple_Arms,
        bulk.diode_Aaverage,
      ],
      count * fields,
    )
  }
  return { from_W: least_W, step_W, count, collapses: count < steps, values }
}

/** The thermistor's resistance at the current that it itself lets through. */
function settledSide(
  p: Plant,
  input: Condition['input'],
  capacitance_F: number,
  power_W: number,
): InputSide | null {
  let side = inputSide(p, input, capacitance_F, power_W, null)
  for (let i = 0; i < 2 && side !== null; i++) side = inputSide(p, input, capacitance_F, power_W, side)
  return side
}

/** `collapses` where the bulk is empty at this power, `beyond` where the table does not reach. */
export function readBulk(t: BulkTable, power_W: number, out: BulkPoint): 'ok' | 'collapses' | 'beyond' {
  const at = (power_W - t.from_W) / t.step_W
  if (at >= t.count - 1) return t.collapses ? 'collapses' : 'beyond'
  const i = at > 0 ? Math.floor(at) : 0
  const share = at - i
  const v = t.values
  const a = i * fields
  const b = a + fields
  const between = (k: number): number => v[a + k]! + share * (v[b + k]! - v[a + k]!)
  out.minimum_V = between(0)
  out.average_V = between(1)
  out.maximum_V = between(2)
  out.bridge_W = between(3)
  out.series_W = out.bridge_W + between(4) + between(5)
  out.bleed_W = between(6)
  out.input_Arms = between(7)
  out.ripple_Arms = between(8)
  out.diode_Aaverage = between(9)
  return 'ok'
}
