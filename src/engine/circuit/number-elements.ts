import type { Controlled, CurrentOf, Device, Ends, Layout } from './layout.ts'
import type { Netlist } from './netlist.ts'
import { inductanceMatrix } from './validate.ts'

/** Number everything in a netlist whose elements passed their own checks. */
export function layOut(netlist: Netlist): Layout {
  const leak = netlist.leak_S ?? 1e-10
  const nodes: string[] = []
  const nodeNumber = new Map<string, number>([['0', -1]])
  const node = (name: string): number => {
    let number = nodeNumber.get(name)
    if (number === undefined) {
      number = nodes.length
      nodes.push(name)
      nodeNumber.set(name, number)
    }
    return number
  }
  const ends = (element: { name: string; a: string; b: string }): Ends => ({
    name: element.name,
    a: node(element.a),
    b: node(element.b),
  })
  for (const element of netlist.elements)
    if ('windings' in element)
      for (const winding of element.windings) {
        node(winding.a)
        node(winding.b)
      }
    else ends(element)

  const branchNames: string[] = []
  const unknown = (name: string): number => nodes.length + branchNames.push(name) - 1
  const caps: Layout['caps'][number][] = []
  const inductors: Layout['inductors'][number][] = []
  const blocks: { at: number; size: number; m: Float64Array }[] = []
  const conductances: Layout['conductances'][number][] = []
  const inputs: Layout['inputs'][number][] = [{ kind: 'dc', value: 1 }]
  const voltageSources: Layout['voltageSources'][number][] = []
  const currentSources: Layout['currentSources'][number][] = []
  const controlled: Controlled[] = []
  const transformers: Layout['transformers'][number][] = []
  const devices: Device[] = []
  const slows: Layout['slows'][number][] = []
  const currents = new Map<string, CurrentOf[]>()
  const deviceNumber = new Map<string, number>()
  const chargeOwners: string[] = []

  const addCap = (branch: Ends, farad: number, initial: number) => {
    caps.push({ ...branch, farad, initial, z: unknown(branch.name) })
  }
  const addDevice = (device: Device) => {
    currents.set(device.name, [{ kind: 'device', device: devices.length }])
    deviceNumber.set(device.name, devices.length)
    devices.push(device)
  }

  for (const element of netlist.elements) {
    switch (element.kind) {
      case 'resistor': {
        const branch = ends(element)
        const siemens = 1 / element.resistance_ohm
        conductances.push({ ...branch, siemens })
        currents.set(element.name, [{ kind: 'conductance', a: branch.a, b: branch.b, siemens }])
        break
      }
      case 'capacitor':
        addCap(ends(element), element.capacitance_F, element.initial_V ?? 0)
        currents.set(element.name, [{ kind: 'unknown', z: caps.at(-1)!.z }])
        break
      case 'inductor':
      case 'saturating-inductor':
        blocks.push({ at: inductors.length, size: 1, m: Float64Array.of(element.inductance_H) })
        inductors.push({ ...ends(element), initial: element.initial_A ?? 0 })
        if (element.kind === 'saturating-inductor' && element.knees.length > 0) {
          const up = element.knees.map((knee) => knee.current_A)
          const beyond = element.knees.map((knee) => knee.beyond_H)
          const edges = [...up.map((i) => -i).reverse(), ...up]
          devices.push({
            kind: 'core',
            name: element.name,
            inductor: inductors.length - 1,
            inductance: [...[...beyond].reverse(), element.inductance_H, ...beyond],
            edges,
            first: edges.filter((edge) => edge < (element.initial_A ?? 0)).length,
          })
        }
        currents.set(element.name, [{ kind: 'state', x: -inductors.length }])
        break
      case 'coupled-inductors': {
        blocks.push({ at: inductors.length, size: element.windings.length, m: inductanceMatrix(element) })
        const list: CurrentOf[] = []
        element.windings.forEach((winding, i) => {
          inductors.push({
            name: `${element.name}.${i}`,
            a: node(winding.a),
            b: node(winding.b),
            initial: winding.initial_A ?? 0,
          })
          list.push({ kind: 'state', x: -inductors.length })
        })
        currents.set(element.name, list)
        break
      }
      case 'ideal-transformer': {
        const windings = element.windings.map((winding) => ({
          name: element.name,
          a: node(winding.a),
          b: node(winding.b),
          turns: winding.turns,
          z: unknown(element.name),
        }))
        transformers.push(windings)
        currents.set(
          element.name,
          windings.map((winding) => ({ kind: 'unknown', z: winding.z })),
        )
        break
      }
      case 'voltage-source': {
        const z = unknown(element.name)
        voltageSources.push({ ...ends(element), u: inputs.push(element.waveform) - 1, z })
        currents.set(element.name, [{ kind: 'unknown', z }])
        break
      }
      case 'current-source': {
        const u = inputs.push(element.waveform) - 1
        currentSources.push({ ...ends(element), u })
        currents.set(element.name, [{ kind: 'input', u }])
        break
      }
      case 'controlled-voltage':
      case 'controlled-current': {
        const isVoltage = element.kind === 'controlled-voltage'
        const z = isVoltage ? unknown(element.name) : -1
        const bends = (element.bends ?? []).map((bend, i) => {
          devices.push({ kind: 'bend', name: `${element.name}.${i}`, of: bend.of, first: 0 })
          return { gain: bend.gain, of: bend.of, device: devices.length - 1 }
        })
        currents.set(element.name, [
          isVoltage ? { kind: 'unknown', z } : { kind: 'controlled', controlled: controlled.length },
        ])
        controlled.push({ ...ends(element), z, value: element.value, bends })
        break
      }
      case 'diode': {
        const on = 1 / element.slope_ohm
        if (element.transit_s !== undefined) chargeOwners.push(element.name)
        addDevice({
          kind: 'conductor',
          ...ends(element),
          slope: [leak, on],
          shift: [0, (leak - on) * element.drop_V],
          edges: [element.drop_V],
          first: 0,
          charge: element.transit_s === undefined ? -1 : chargeOwners.length - 1,
          transit_s: element.transit_s ?? 0,
        })
        if (element.capacitance_F !== undefined)
          addCap(ends(element), element.capacitance_F, element.initial_V ?? 0)
        break
      }
      case 'avalanche': {
        const down = 1 / element.breakdown_slope_ohm
        const on = element.bidirectional === true ? down : 1 / element.slope_ohm
        const top = element.bidirectional === true ? element.breakdown_V : element.drop_V
        addDevice({
          kind: 'conductor',
          ...ends(element),
          slope: [down, leak, on],
          shift: [(down - leak) * element.breakdown_V, 0, (leak - on) * top],
          edges: [-element.breakdown_V, top],
          first: 1,
          charge: -1,
          transit_s: 0,
        })
        if (element.capacitance_F !== undefined)
          addCap(ends(element), element.capacitance_F, element.initial_V ?? 0)
        break
      }
      case 'switch':
        addDevice({
          kind: 'switch',
          ...ends(element),
          slope: [element.off_ohm === undefined ? leak : 1 / element.off_ohm, 1 / element.on_ohm],
          first: element.closed === true ? 1 : 0,
        })
        if (element.capacitance_F !== undefined)
          addCap(ends(element), element.capacitance_F, element.initial_V ?? 0)
        break
      case 'slow':
        currents.set(element.name, [{ kind: 'slow', slow: slows.length }])
        slows.push({ ...ends(element), u: inputs.push({ kind: 'slow' }) - 1, element })
        break
    }
  }

  const nL = inductors.length
  const inductance = new Float64Array(nL * nL)
  for (const { at, size, m } of blocks)
    for (let r = 0; r < size; r++)
      for (let c = 0; c < size; c++) inductance[(at + r) * nL + at + c] = m[r * size + c]!
  // inductor states were noted as -1, -2 ... until the number of capacitors was known
  for (const list of currents.values())
    for (let i = 0; i < list.length; i++) {
      const item = list[i]!
      if (item.kind === 'state') list[i] = { kind: 'state', x: caps.length - item.x - 1 }
    }
  return {
    netlist,
    nodes,
    nodeNumber,
    unknowns: nodes.length + branchNames.length,
    branchNames,
    caps,
    inductors,
    inductance,
    charges: chargeOwners.length,
    stateNames: [
      ...caps.map((cap) => `${cap.name} V`),
      ...inductors.map((inductor) => `${inductor.name} A`),
      ...chargeOwners.map((name) => `${name} C`),
    ],
    conductances,
    inputs,
    voltageSources,
    currentSources,
    controlled,
    transformers,
    devices,
    slows,
    currents,
    deviceNumber,
  }
}
