import type { SvgNode } from '../../svg/node.ts'
import { junction, wire } from '../../svg/path.ts'
import { column, rail } from '../layout.ts'
import type { SchematicModel, Spot } from '../model.ts'
import { run, shunt } from './leads.ts'

/** Bulk, clamp, primary winding, chip, bias supply. */
export function primaryWiring(model: SchematicModel): SvgNode[] {
  const has = (spot: Spot) => model.items[spot] !== undefined
  const nodes = [
    ...run([
      [604, rail.primaryTop],
      [column.winding, rail.primaryTop],
      [column.winding, 132],
    ]),
    ...run([
      [column.winding, 188],
      [column.winding, rail.drain],
      [column.clamp, rail.drain],
      [column.clamp, 285],
    ]),
    ...run([
      [604, rail.primaryCommon],
      [column.clamp, rail.primaryCommon],
      [column.clamp, 385],
    ]),
    ...shunt('bulkCapacitor', rail.primaryTop, rail.primaryCommon),
    junction([column.clamp, rail.drain]),
    wire([column.clamp, rail.drain], [column.clamp, 230]),
  ]
  if (has('clampAvalanche'))
    nodes.push(
      wire([column.clamp, rail.primaryTop], [column.clamp, 90]),
      junction([column.clamp, rail.primaryTop]),
      wire([column.clamp, 150], [column.clamp, 170]),
    )
  else
    nodes.push(
      ...shunt('clampResistor', rail.primaryTop, 160, 'top'),
      ...shunt('clampCapacitor', rail.primaryTop, 160, 'top'),
      ...run(
        [
          [704, 160],
          [766, 160],
        ],
        [[column.clamp, 160]],
      ),
      wire([column.clamp, 160], [column.clamp, 170]),
    )
  const common = 500
  nodes.push(
    ...run([
      [column.winding, 432],
      [column.winding, rail.bias],
      [888, rail.bias],
    ]),
    ...run(
      [
        [column.winding, 488],
        [column.winding, common],
        [column.clamp, common],
      ],
      [[column.clamp, common]],
    ),
    ...run([
      [828, rail.bias],
      [812, rail.bias],
    ]),
    ...shunt('biasCapacitor', rail.bias, common, 'both'),
    ...run(
      [
        [column.control, 652],
        [column.control, rail.primaryCommon],
      ],
      [[column.control, rail.primaryCommon]],
    ),
    ...controlWiring(model),
  )
  return nodes
}

/**
 * From the phototransistor to the chip. Either it feeds current from the bias supply into the control pin, or it draws
 * current out of the feedback pin to the source, and the bias supply feeds the chip at a pin of its own.
 */
function controlWiring(model: SchematicModel): SvgNode[] {
  if (model.control === 'voltage-mode')
    return [
      ...run(
        [
          [832, rail.bias],
          [832, 535],
          [868, 535],
        ],
        [[832, rail.bias]],
      ),
      ...run(
        [
          [868, 595],
          [column.control, 595],
          [column.control, 335],
          [680, 335],
        ],
        [[column.control, 595]],
      ),
    ]
  return [
    ...run(
      [
        [868, 535],
        [column.control, 535],
        [column.control, 335],
        [680, 335],
      ],
      [[column.control, 535]],
    ),
    wire([column.control, 535], [column.control, 592]),
    ...run(
      [
        [868, 595],
        [column.clamp, 595],
      ],
      [[column.clamp, 595]],
    ),
    ...run(
      [
        [812, rail.bias],
        [812, 365],
        [790, 365],
      ],
      [[812, rail.bias]],
    ),
  ]
}
