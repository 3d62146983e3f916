import { type LinearForm, scaled, sum, voltage } from './form.ts'
import type { Device, Layout } from './layout.ts'
import { type OutputRow, outputRow, projectRow } from './output-row.ts'
import { columnsOf } from './stamp.ts'
import type { Structure } from './structure.ts'
import type { Topology } from './topology.ts'

/** A condition that holds while a device keeps its state: positive inside, negative beyond. */
export interface Guard {
  readonly device: number
  /** State of the device beyond the boundary. */
  readonly next: number
  readonly row: OutputRow
}

/** What one run needs to know of a topology. */
export interface Plan {
  readonly topology: Topology
  readonly guards: readonly Guard[]
  readonly watches: readonly OutputRow[]
  readonly outputs: readonly OutputRow[]
  /** Voltage of every slow element. */
  readonly slows: readonly OutputRow[]
  /** Plans with one device in another state, kept by the plan book. */
  readonly neighbours: Map<number, Plan>
}

export function makePlan(
  layout: Layout,
  structure: Structure,
  topology: Topology,
  watches: readonly LinearForm[],
  outputs: readonly LinearForm[],
): Plan {
  const row = (form: LinearForm) => outputRow(layout, structure, topology, form)
  const guards: Guard[] = []
  layout.devices.forEach((device, d) => {
    const state = topology.setting.devices[d]!
    if (device.kind === 'conductor' && device.charge >= 0 && state === 1) {
      const columns = columnsOf(layout)
      const flat = new Float64Array(columns.width)
      flat[columns.z + columns.x - layout.charges + device.charge] = 1 / device.transit_s
      guards.push({ device: d, next: 0, row: projectRow(layout, structure, topology, flat) })
      return
    }
    for (const { next, form } of boundaries(layout, device, state))
      guards.push({ device: d, next, row: row(form) })
  })
  return {
    topology,
    guards,
    watches: watches.map(row),
    outputs: outputs.map(row),
    slows: layout.slows.map((slow) => row(voltage(nodeName(layout, slow.a), nodeName(layout, slow.b)))),
    neighbours: new Map(),
  }
}

const nodeName = (layout: Layout, node: number): string => (node < 0 ? '0' : layout.nodes[node]!)

/** Boundaries of a device state as forms which are positive inside. */
function boundaries(layout: Layout, device: Device, state: number): { next: number; form: LinearForm }[] {
  if (device.kind === 'switch') return []
  if (device.kind === 'bend') return [{ next: 1 - state, form: scaled(state === 1 ? 1 : -1, device.of) }]
  const level: LinearForm =
    device.kind === 'conductor'
      ? voltage(nodeName(layout, device.a), nodeName(layout, device.b))
      : inductorCurrent(layout, device.inductor)
  const out: { next: number; form: LinearForm }[] = []
  const above = device.edges[state]
  const below = device.edges[state - 1]
  if (above !== undefined)
    out.push({ next: state + 1, form: sum(scaled(-1, level), { terms: [], offset: above }) })
  if (below !== undefined) out.push({ next: state - 1, form: sum(level, { terms: [], offset: -below }) })
  return out
}

/** Saturating inductors have one winding, so their name is the element's. */
function inductorCurrent(layout: Layout, inductor: number): LinearForm {
  return {
    terms: [{ gain: 1, of: { kind: 'current', element: layout.inductors[inductor]!.name, winding: 0 } }],
    offset: 0,
  }
}
