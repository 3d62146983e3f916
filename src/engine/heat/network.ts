/**
 * A thermal network: nodes with heat capacity, joined by conductances, some held at a fixed temperature (ambient, a
 * wall). Temperatures in C, powers in W.
 */
export interface ThermalNode {
  readonly name: string
  readonly capacity_J_per_K: number
}

export interface ThermalFixed {
  readonly name: string
  readonly temperature_C: number
}

export interface ThermalLink {
  readonly from: string
  readonly to: string
  readonly conductance_W_per_K: number
}

export interface ThermalNetwork {
  readonly nodes: readonly ThermalNode[]
  readonly fixed: readonly ThermalFixed[]
  readonly links: readonly ThermalLink[]
}

/** Heat put into nodes, by name; nodes left out get none. */
export type HeatInput = Readonly<Record<string, number>>

export interface ThermalFailure {
  readonly ok: false
  readonly code: 'unknown-name' | 'duplicate-name' | 'bad-value' | 'floating'
  readonly message: string
}

/** Conductance matrix (row-major), heat from fixed nodes, capacities. */
export interface ThermalMatrices {
  readonly ok: true
  readonly names: readonly string[]
  readonly conductance: Float64Array
  readonly inflow_W: Float64Array
  readonly capacity: Float64Array
}

const failure = (code: ThermalFailure['code'], message: string): ThermalFailure => ({
  ok: false,
  code,
  message,
})

/** Builds G and the inflow from fixed temperatures: capacity dT/dt = -G T + inflow + heat. */
export function assemble(network: ThermalNetwork): ThermalMatrices | ThermalFailure {
  const n = network.nodes.length
  const index = new Map<string, number>()
  for (const [k, node] of network.nodes.entries()) {
    if (index.has(node.name)) return failure('duplicate-name', `thermal node ${node.name} is named twice`)
    if (!(node.capacity_J_per_K > 0 && node.capacity_J_per_K < 1e9))
      return failure(
        'bad-value',
        `heat capacity of ${node.name} is ${node.capacity_J_per_K} J/K, must be above 0`,
      )
    index.set(node.name, k)
  }
  const held = new Map<string, number>()
  for (const fixed of network.fixed) {
    if (index.has(fixed.name) || held.has(fixed.name))
      return failure('duplicate-name', `thermal node ${fixed.name} is named twice`)
    if (!Number.isFinite(fixed.temperature_C))
      return failure('bad-value', `temperature of ${fixed.name} is ${fixed.temperature_C}, must be finite`)
    held.set(fixed.name, fixed.temperature_C)
  }
  const G = new Float64Array(n * n)
  const inflow = new Float64Array(n)
  for (const link of network.links) {
    const g = link.conductance_W_per_K
    if (!(g > 0 && g < 1e9))
      return failure('bad-value', `conductance ${link.from} to ${link.to} is ${g} W/K, must be above 0`)
    for (const [here, there] of [
      [link.from, link.to],
      [link.to, link.from],
    ] as const) {
      const i = index.get(here)
      if (i === undefined) {
        if (!held.has(here)) return failure('unknown-name', `link names ${here}, which is not a node`)
        continue
      }
      G[i * n + i]! += g
      const j = index.get(there)
      if (j !== undefined) G[i * n + j]! -= g
      else inflow[i]! += g * (held.get(there) ?? 0)
    }
  }
  const capacity = Float64Array.from(network.nodes, (node) => node.capacity_J_per_K)
  return {
    ok: true,
    names: network.nodes.map((node) => node.name),
    conductance: G,
    inflow_W: inflow,
    capacity,
  }
}

/** Heat vector in node order, or a failure that names an unknown node or a value that is no number. */
export function heatVector(names: readonly string[], heat_W: HeatInput): Float64Array | ThermalFailure {
  const vector = new Float64Array(names.length)
  for (const [name, value] of Object.entries(heat_W)) {
    const k = names.indexOf(name)
    if (k < 0) return failure('unknown-name', `heat is put into ${name}, which is not a node`)
    if (!Number.isFinite(value))
      return failure('bad-value', `heat into ${name} is ${value} W, must be finite`)
    vector[k] = value
  }
  return vector
}
