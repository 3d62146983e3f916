import type { Circuit } from './circuit.ts'
import type { LinearForm } from './form.ts'
import { makePlan, type Plan } from './plan.ts'
import { RunStop } from './stop.ts'
import { buildTopology, type Topology } from './topology.ts'

/** Most states of one device, for keys. */
const mostStates = 64

/** The plans of one run by device states; topologies are shared with other runs while no slow element differs. */
export class PlanBook {
  private readonly circuit: Circuit
  private readonly watches: readonly LinearForm[]
  private readonly outputs: readonly LinearForm[]
  private plans = new Map<string, Plan>()

  constructor(circuit: Circuit, watches: readonly LinearForm[], outputs: readonly LinearForm[]) {
    this.circuit = circuit
    this.watches = watches
    this.outputs = outputs
  }

  /** Slow conductances changed: nothing kept is valid. */
  forget(): void {
    this.plans = new Map()
  }

  find(devices: Int32Array, slow: Float64Array): Plan {
    const key = devices.join()
    const known = this.plans.get(key)
    if (known !== undefined) return known
    const { layout, structure, topologies } = this.circuit
    const shared = slow.length === 0
    let topology: Topology | undefined = shared ? topologies.get(key) : undefined
    if (topology === undefined) {
      topology = buildTopology(layout, structure, {
        devices: Int32Array.from(devices),
        slow: Float64Array.from(slow),
        structural: false,
      })
      if (topology === undefined)
        throw new RunStop('singular', `the network has no unique solution with device states ${key}`)
      if (shared) topologies.set(key, topology)
    }
    const plan = makePlan(layout, structure, topology, this.watches, this.outputs)
    this.plans.set(key, plan)
    return plan
  }

  /** The plan next to `plan` with one device in another state; `devices` already says so. */
  neighbour(plan: Plan, device: number, next: number, devices: Int32Array, slow: Float64Array): Plan {
    const key = device * mostStates + next
    let found = plan.neighbours.get(key)
    if (found === undefined) {
      found = this.find(devices, slow)
      plan.neighbours.set(key, found)
    }
    return found
  }
}
