import type { SvgNode } from '../../svg/node.ts'
import { junction, wire } from '../../svg/path.ts'
import { column, rail } from '../layout.ts'
import type { SchematicModel, Spot } from '../model.ts'
import { run, seriesRun, shunt } from './leads.ts'

/** Secondary winding, rectifier, filter, indicator, output terminals. */
export function outputWiring(model: SchematicModel): SvgNode[] {
  const has = (spot: Spot) => model.items[spot] !== undefined
  const nodes = [
    ...run([
      [column.secondary, 132],
      [column.secondary, rail.outputTop],
      [990, rail.outputTop],
    ]),
    ...run([
      [column.secondary, 188],
      [column.secondary, rail.outputCommon],
      [column.output - 5, rail.outputCommon],
    ]),
    ...seriesRun(rail.outputTop, 1050, column.output - 5, ['choke'], has),
    ...shunt('outputCapacitor', rail.outputTop, rail.outputCommon),
  ]
  if (has('secondCapacitor')) nodes.push(...shunt('secondCapacitor', rail.outputTop, rail.outputCommon))
  if (has('indicator'))
    nodes.push(
      wire([column.indicator, rail.outputTop], [column.indicator, 90]),
      wire([column.indicator, 150], [column.indicator, 165]),
      wire([column.indicator, 225], [column.indicator, rail.outputCommon]),
      junction([column.indicator, rail.outputTop]),
      junction([column.indicator, rail.outputCommon]),
    )
  if (has('snubberResistor'))
    nodes.push(
      ...run(
        [
          [958, 40],
          [958, rail.outputTop],
        ],
        [[958, rail.outputTop]],
      ),
      wire([1018, 40], [1030, 40]),
      ...run(
        [
          [1090, 40],
          [1090, rail.outputTop],
        ],
        [[1090, rail.outputTop]],
      ),
    )
  return nodes
}
