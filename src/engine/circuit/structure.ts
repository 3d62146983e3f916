import { rowReduce } from './dense.ts'
import type { Layout } from './layout.ts'
import type { NetlistProblem } from './problem.ts'
import { columnsOf, stampEquations } from './stamp.ts'

/**
 * What holds in every topology. Capacitor loops and inductor cutsets tie states together:
 * `ties * states + tieInputs * inputs = 0`. The tied (dependent) states follow from the free ones:
 * `states = free-to-all * free + inputs-to-all * inputs`.
 */
export interface Structure {
  /** Number of states, tied and free. */
  readonly states: number
  readonly tieCount: number
  /** tieCount x states. */
  readonly ties: Float64Array
  /** tieCount x inputs. */
  readonly tieInputs: Float64Array
  /** Rows of the equations made redundant by the ties. */
  readonly redundantRows: readonly number[]
  /** Numbers of the free states. */
  readonly free: readonly number[]
  /** states x free. */
  readonly spread: Float64Array
  /** states x inputs. */
  readonly spreadInputs: Float64Array
}

/** Find the ties between states, or say why the network has no unique solution. */
export function analyse(layout: Layout): Structure | NetlistProblem[] {
  const { z, x, u, width } = columnsOf(layout)
  const rows = stampEquations(layout, {
    devices: layout.devices.map(() => 0),
    slow: layout.slows.map(() => 1),
    structural: true,
  })
  const wide = new Float64Array(z * 2 * z)
  for (let r = 0; r < z; r++) {
    let big = 0
    for (let c = 0; c < z; c++) big = Math.max(big, Math.abs(rows[r * width + c]!))
    const scale = big > 0 ? 1 / big : 1
    for (let c = 0; c < z; c++) wide[r * 2 * z + c] = rows[r * width + c]! * scale
    wide[r * 2 * z + z + r] = scale
  }
  const { rank } = rowReduce(wide, z, 2 * z, z, 1e-11)
  const k = z - rank
  // [ties | tie inputs | combination of equations]
  const w = x + u + z
  const tie = new Float64Array(k * w)
  for (let t = 0; t < k; t++)
    for (let r = 0; r < z; r++) {
      const weight = wide[(rank + t) * 2 * z + z + r]!
      if (Math.abs(weight) < 1e-9) continue
      tie[t * w + x + u + r] = weight
      for (let c = 0; c < x + u; c++) tie[t * w + c]! += weight * rows[r * width + z + c]!
    }
  for (let i = 0; i < tie.length; i++) if (Math.abs(tie[i]!) < 1e-9) tie[i] = 0
  const reduced = rowReduce(tie, k, w, x, 1e-9)
  if (reduced.rank < k) {
    const problems: NetlistProblem[] = []
    for (let t = reduced.rank; t < k; t++)
      problems.push(explain(layout, tie.subarray(t * w, (t + 1) * w), x, u))
    return problems
  }
  const combos = new Float64Array(k * z)
  for (let t = 0; t < k; t++) combos.set(tie.subarray(t * w + x + u, (t + 1) * w), t * z)
  const redundantRows = rowReduce(combos, k, z, z, 1e-9).pivots

  const tied = reduced.pivots
  const free: number[] = []
  for (let s = 0; s < x; s++) if (!tied.includes(s)) free.push(s)
  const n = free.length
  const spread = new Float64Array(x * n)
  const spreadInputs = new Float64Array(x * u)
  free.forEach((s, j) => {
    spread[s * n + j] = 1
  })
  tied.forEach((s, t) => {
    free.forEach((f, j) => {
      spread[s * n + j] = -tie[t * w + f]!
    })
    for (let c = 0; c < u; c++) spreadInputs[s * u + c] = -tie[t * w + x + c]!
  })
  const ties = new Float64Array(k * x)
  const tieInputs = new Float64Array(k * u)
  for (let t = 0; t < k; t++) {
    ties.set(tie.subarray(t * w, t * w + x), t * x)
    tieInputs.set(tie.subarray(t * w + x, t * w + x + u), t * u)
  }
  return { states: x, tieCount: k, ties, tieInputs, redundantRows, free, spread, spreadInputs }
}

/** Name the fault behind a combination of equations in which no unknown and no state is left. */
function explain(layout: Layout, row: Float64Array, x: number, u: number): NetlistProblem {
  const nodes: string[] = []
  const branches: string[] = []
  for (let r = 0; r < layout.unknowns; r++) {
    if (Math.abs(row[x + u + r]!) < 1e-9) continue
    if (r < layout.nodes.length) nodes.push(layout.nodes[r]!)
    else branches.push(layout.branchNames[r - layout.nodes.length]!)
  }
  const sources = layout.currentSources.filter((source) => Math.abs(row[x + source.u]!) > 1e-9)
  const inputs = sources.map((source) => source.name)
  if (branches.length === 0 && inputs.length > 0)
    return {
      code: 'current-cutset',
      message: `current of ${inputs.join(', ')} has no way back from node ${nodes.join(', ')}`,
      elements: inputs,
      nodes,
    }
  if (branches.length === 0)
    return {
      code: 'floating-node',
      message: `no path to ground from node ${nodes.join(', ')}`,
      elements: [],
      nodes,
    }
  if (nodes.length === 0)
    return {
      code: 'voltage-loop',
      message: `loop of ideal voltages through ${branches.join(', ')}`,
      elements: branches,
      nodes,
    }
  return {
    code: 'singular',
    message: `no unique solution at node ${nodes.join(', ')} with ${branches.join(', ')}`,
    elements: branches,
    nodes,
  }
}
