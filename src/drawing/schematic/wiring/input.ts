import type { SvgNode } from '../../svg/node.ts'
import { wire } from '../../svg/path.ts'
import { column, rail } from '../layout.ts'
import type { SchematicModel, Spot } from '../model.ts'
import { run, seriesRun, shunt } from './leads.ts'

/** Mains terminals to bridge, or DC terminals to the bulk capacitor. */
export function inputWiring(model: SchematicModel): SvgNode[] {
  const has = (spot: Spot) => model.items[spot] !== undefined
  const nodes = seriesRun(
    rail.line,
    column.terminal + 4,
    has('commonModeChoke') ? 454 : column.bridgeLeft,
    ['fuse', 'ntc'],
    has,
  )
  const choke = has('commonModeChoke')
  nodes.push(wire([column.terminal + 4, rail.neutral], [choke ? 454 : column.bridgeLeft, rail.neutral]))
  if (choke) for (const y of [rail.line, rail.neutral]) nodes.push(wire([510, y], [column.bridgeLeft, y]))
  for (const spot of ['varistor', 'xCapacitor', 'bleed'] as const)
    if (has(spot)) nodes.push(...shunt(spot, rail.line, rail.neutral))
  const exit = has('bridge') ? column.bridgeRight : column.bridgeLeft
  nodes.push(
    ...run([
      [exit, rail.line],
      [604, rail.line],
      [604, rail.primaryTop],
    ]),
    ...run([
      [exit, rail.neutral],
      [604, rail.neutral],
      [604, rail.primaryCommon],
    ]),
  )
  return nodes
}
