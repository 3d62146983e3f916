import { product } from './exponential.ts'
import type { LinearForm } from './form.ts'
import type { Layout } from './layout.ts'
import { addForm, columnsOf } from './stamp.ts'
import type { Structure } from './structure.ts'
import type { Graded, Topology } from './topology.ts'

/** An output over modes: y = Re(sum c_k z_k) + d u + e u'. */
export interface OutputRow {
  readonly cRe: Float64Array
  readonly cIm: Float64Array
  /** Bound of |c_k|. */
  readonly cSize: Float64Array
  readonly d: Float64Array
  readonly e: Float64Array
  /** The same output over the free states: y = x . states + d u + e u'. */
  readonly x: Float64Array
  /** Coefficients of states and inputs with every term taken positive: the size that rounding works on. */
  readonly grossX: Float64Array
  readonly grossU: Float64Array
}

/** An output of the network in a topology. */
export function outputRow(
  layout: Layout,
  structure: Structure,
  topology: Topology,
  form: LinearForm,
): OutputRow {
  const row = new Float64Array(columnsOf(layout).width)
  addForm(layout, topology.setting, form, 1, row, 0)
  return projectRow(layout, structure, topology, row)
}

/** An output from its row over [unknowns | states | inputs]. */
export function projectRow(
  layout: Layout,
  structure: Structure,
  topology: Topology,
  row: Float64Array,
): OutputRow {
  const { z, x, u } = columnsOf(layout)
  const n = topology.n
  const w = n + 2 * u
  const flat = new Float64Array(w)
  const gross = new Float64Array(n + u)
  for (let r = 0; r < z; r++) {
    const f = row[r]!
    if (f === 0) continue
    for (let j = 0; j < w; j++) flat[j]! += f * topology.solution[r * w + j]!
    for (let j = 0; j < n + u; j++) gross[j]! += Math.abs(f * topology.solution[r * w + j]!)
  }
  for (let s = 0; s < x; s++) {
    const f = row[z + s]!
    if (f === 0) continue
    for (let j = 0; j < n; j++) flat[j]! += f * structure.spread[s * n + j]!
    for (let j = 0; j < u; j++) flat[n + j]! += f * structure.spreadInputs[s * u + j]!
    for (let j = 0; j < n; j++) gross[j]! += Math.abs(f * structure.spread[s * n + j]!)
  }
  for (let j = 0; j < u; j++) {
    flat[n + j]! += row[z + x + j]!
    gross[n + j]! += Math.abs(row[z + x + j]!)
  }
  const { count } = topology.modes
  const { vRe, vIm } = topology.graded ?? topology.modes
  const over =
    topology.graded === undefined ? flat : gradedRow(structure, topology, topology.graded, row, z, x)
  const cRe = new Float64Array(count)
  const cIm = new Float64Array(count)
  for (let j = 0; j < n; j++) {
    const f = over[j]!
    if (f === 0) continue
    for (let k = 0; k < count; k++) {
      cRe[k]! += f * vRe[j * count + k]!
      cIm[k]! += f * vIm[j * count + k]!
    }
  }
  return {
    cRe,
    cIm,
    cSize: cRe.map((re, k) => Math.hypot(re, cIm[k]!)),
    d: flat.slice(n, n + u),
    e: flat.slice(n + u),
    x: flat.slice(0, n),
    grossX: gross.slice(0, n),
    grossU: gross.slice(n),
  }
}

/** An output over the graded coordinates. */
function gradedRow(
  structure: Structure,
  { n, inputs }: Topology,
  { solution, down }: Graded,
  row: Float64Array,
  z: number,
  x: number,
): Float64Array {
  const w = n + 2 * inputs
  const states = new Float64Array(n)
  for (let s = 0; s < x; s++) {
    const f = row[z + s]!
    if (f !== 0) for (let j = 0; j < n; j++) states[j]! += f * structure.spread[s * n + j]!
  }
  const out = product(states, down, 1, n, n)
  for (let r = 0; r < z; r++) {
    const f = row[r]!
    if (f !== 0) for (let j = 0; j < n; j++) out[j]! += f * solution[r * w + j]!
  }
  return out
}
