import type { LinearForm } from './form.ts'
import type { Layout } from './layout.ts'
import type { Netlist } from './netlist.ts'
import { layOut } from './number-elements.ts'
import type { NetlistProblem } from './problem.ts'
import { firstConductance } from './slow.ts'
import { analyse, type Structure } from './structure.ts'
import { buildTopology, type Topology } from './topology.ts'
import { checkElements } from './validate.ts'

/** A checked netlist ready to run. Topologies met are kept, so that later runs start warm. */
export interface Circuit {
  readonly netlist: Netlist
  readonly stateNames: readonly string[]
  readonly layout: Layout
  readonly structure: Structure
  readonly topologies: Map<string, Topology>
}

export type BuildResult =
  | { readonly ok: true; readonly circuit: Circuit }
  | { readonly ok: false; readonly problems: readonly NetlistProblem[] }

/**
 * Check a netlist and prepare it. Problems are all named: nonsense values, unknown names, floating nodes,
 * loops of ideal voltages, cutsets of current sources, impossible couplings.
 */
export function buildCircuit(netlist: Netlist): BuildResult {
  const problems = checkElements(netlist)
  if (problems.length > 0) return { ok: false, problems }
  const layout = layOut(netlist)
  problems.push(...checkReferences(netlist, layout))
  if (problems.length > 0) return { ok: false, problems }
  const structure = analyse(layout)
  if ('length' in structure) return { ok: false, problems: structure }
  const circuit = { netlist, stateNames: layout.stateNames, layout, structure, topologies: new Map() }
  const first = buildTopology(layout, structure, {
    devices: layout.devices.map((device) => device.first),
    slow: layout.slows.map((slow) => firstConductance(slow.element)),
    structural: false,
  })
  if (first === undefined)
    return {
      ok: false,
      problems: [
        {
          code: 'singular',
          message: 'the network has no unique solution with its switches and diodes as they start',
          elements: [],
          nodes: [],
        },
      ],
    }
  return { ok: true, circuit }
}

/** Names that a form refers to but the netlist lacks. */
export function unknownNames(layout: Layout, form: LinearForm, where: string): NetlistProblem[] {
  const problems: NetlistProblem[] = []
  const report = (what: string, name: string) =>
    problems.push({
      code: 'unknown-name',
      message: `${where}: no ${what} called ${name}`,
      elements: what === 'node' ? [] : [name],
      nodes: what === 'node' ? [name] : [],
    })
  for (const { of } of form.terms) {
    if (of.kind === 'voltage') {
      for (const node of [of.from, of.to]) if (!layout.nodeNumber.has(node)) report('node', node)
    } else if (layout.currents.get(of.element)?.[of.winding] === undefined)
      report('element or winding', `${of.element}.${of.winding}`)
  }
  return problems
}

function checkReferences(netlist: Netlist, layout: Layout): NetlistProblem[] {
  const problems: NetlistProblem[] = []
  for (const element of netlist.elements)
    if (element.kind === 'controlled-voltage' || element.kind === 'controlled-current')
      for (const form of [element.value, ...(element.bends ?? []).map((bend) => bend.of)])
        problems.push(...unknownNames(layout, form, element.name))
  for (const controller of netlist.controllers ?? [])
    for (const [watch, form] of Object.entries(controller.watches))
      problems.push(...unknownNames(layout, form, `${controller.name}.${watch}`))
  return problems
}
