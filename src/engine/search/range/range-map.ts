import type { Limit } from '../../limits/index.ts'
import type { Drawer } from '../../parts/part.ts'
import { resolve } from '../../supply/evaluate.ts'
import { need as needSchema } from '../../supply/need.ts'
import { type Result, succeed } from '../../supply/result.ts'
import type { Supply } from '../../supply/supply.ts'
import { frozen, needAt } from './frozen.ts'
import { byDivider, byParts, type Verdict } from './retarget.ts'

/** One output that a built supply might serve. */
export interface RangeCell {
  readonly verdict: Exclude<Verdict, 'rewind'>
  /** What gives first there: with the divider alone where that holds, else what stops the next easier way. */
  readonly limit: Pick<Limit, 'id' | 'title' | 'margin'> | null
}

/** The map of output voltage and current that a built transformer and board can serve. */
export interface RangeMap {
  readonly volts: readonly number[]
  readonly amps: readonly number[]
  /** Row by row of current, from the least; columns of voltage. */
  readonly cells: readonly RangeCell[]
}

const columns = 22
const rows = 16
const spanV = { from: 0.4, to: 2.2 }
const spanA = { from: 0.1, to: 1.75 }

const steps = (from: number, to: number, count: number): number[] =>
  Array.from({ length: count }, (_, i) => Number((from + ((to - from) * i) / (count - 1)).toPrecision(3)))

/**
 * Which outputs a built supply serves by its divider alone, and which with another rectifier and capacitors from the
 * drawer; between the grid's points it is not looked at. Errors: a supply that cannot be settled.
 */
export function rangeMap(supply: Supply, drawer: Drawer): Result<RangeMap> {
  const design = resolve(supply)
  if (!design.ok) return design
  const built = frozen(design.value)
  const { output_V, output_A } = supply.need
  const volts = steps(Math.max(1.8, spanV.from * output_V), Math.min(60, spanV.to * output_V), columns)
  const amps = steps(Math.max(0.02, spanA.from * output_A), Math.min(40, spanA.to * output_A), rows)
  const cells: RangeCell[] = new Array(volts.length * amps.length)
  volts.forEach((output_V, column) => {
    // What serves a current serves every smaller one: from the greatest down.
    let above: RangeCell | null = null
    for (let row = amps.length - 1; row >= 0; row--) {
      const cell: RangeCell =
        above?.verdict === 'divider' ? above : cellAt(built, drawer, output_V, amps[row]!, above)
      cells[row * volts.length + column] = cell
      above = cell
    }
  })
  return succeed({ volts, amps, cells })
}

function cellAt(
  built: Supply,
  drawer: Drawer,
  output_V: number,
  output_A: number,
  above: RangeCell | null,
): RangeCell {
  const need = needAt(built.need, output_V, output_A)
  if (!needSchema.safeParse(need).success) return { verdict: 'none', limit: null }
  const alone = byDivider(built, need)
  if (alone?.assessment.holds) return { verdict: 'divider', limit: brief(alone.assessment.givesFirst) }
  if (above?.verdict === 'parts') return above
  // What no part of the output mends needs no part to be tried.
  const bound = alone?.assessment.limits.find((limit) => !limit.holds && ofPrimary(limit))
  if (bound) return { verdict: 'none', limit: brief(bound) }
  const parts = byParts(built, need, drawer)
  if (parts?.assessment.holds)
    return { verdict: 'parts', limit: alone ? brief(alone.assessment.givesFirst) : null }
  const stops = parts?.assessment.givesFirst ?? alone?.assessment.givesFirst
  return { verdict: 'none', limit: stops ? brief(stops) : null }
}

/** Limits that transformer, clamp, chip and primary side set, whatever the output side is made of. */
const ofPrimary = ({ id, margin }: Limit): boolean =>
  margin < -0.05 &&
  /^(core|transformer|switcher|clamp|primary|bulk|supply)\./.test(id) &&
  id !== 'supply.runs'

const brief = ({ id, title, margin }: Limit): RangeCell['limit'] => ({ id, title, margin })
