import { longestOf } from './chain.ts'
import { factorLu, inverse, solveLu } from './dense.ts'
import type { LinearForm } from './form.ts'
import type { Layout } from './layout.ts'
import { findModes, type Modes } from './modes.ts'
import { addForm, columnsOf, type Setting, stampEquations } from './stamp.ts'
import type { Structure } from './structure.ts'

/**
 * One linear network (one set of device states) in modal form. With modal amplitudes `z_k = w_k x`:
 * `z_k' = lambda_k z_k + b_k u + c_k u'`, `x = Re(sum v_k z_k)` over the free states x; modes of a chain are coupled.
 */
export interface Topology {
  readonly setting: Setting
  readonly n: number
  readonly inputs: number
  readonly modes: Modes
  /** Longest span its chains allow, s. */
  readonly longest_s: number
  /** count x inputs, forcing by inputs and by their rates. */
  readonly bRe: Float64Array
  readonly bIm: Float64Array
  readonly rateRe: Float64Array
  readonly rateIm: Float64Array
  /** Rates of the free states, n x (free | inputs | input rates). */
  readonly rates: Float64Array
  /** unknowns x (free | inputs | input rates). */
  readonly solution: Float64Array
  /** Inductance matrix of this topology. */
  readonly inductance: Float64Array
}

/** An output over modes: y = Re(sum c_k z_k) + d u + e u'. */
export interface OutputRow {
  readonly cRe: Float64Array
  readonly cIm: Float64Array
  readonly d: Float64Array
  readonly e: Float64Array
  /** The same output over the free states: y = x . states + d u + e u'. */
  readonly x: Float64Array
  /** Coefficients of states and inputs with every term taken positive: the size that rounding works on. */
  readonly grossX: Float64Array
  readonly grossU: Float64Array
}

/** Inductance matrix with every saturating inductor on its present segment. */
function presentInductance(layout: Layout, setting: Setting): Float64Array {
  const m = layout.inductance.slice()
  const n = layout.inductors.length
  layout.devices.forEach((device, d) => {
    if (device.kind === 'core')
      m[device.inductor * n + device.inductor] = device.inductance[setting.devices[d]!]!
  })
  return m
}

/** Build the modal form of a topology, or undefined when its equations are singular. */
export function buildTopology(layout: Layout, structure: Structure, setting: Setting): Topology | undefined {
  const { z, x, u, width } = columnsOf(layout)
  const nC = layout.caps.length
  const nL = layout.inductors.length
  const rows = stampEquations(layout, setting)
  const inductance = presentInductance(layout, setting)
  const invL = nL > 0 ? inverse(inductance, nL) : new Float64Array(0)
  if (invL === undefined) return undefined
  const { free, spread, spreadInputs, redundantRows } = structure
  const n = free.length
  const rhsWidth = n + 2 * u
  const k = new Float64Array(z * z)
  const rhs = new Float64Array(z * rhsWidth)
  for (let r = 0; r < z; r++) {
    for (let c = 0; c < z; c++) k[r * z + c] = rows[r * width + c]!
    for (let s = 0; s < x; s++) {
      const f = rows[r * width + z + s]!
      if (f === 0) continue
      for (let j = 0; j < n; j++) rhs[r * rhsWidth + j]! -= f * spread[s * n + j]!
      for (let j = 0; j < u; j++) rhs[r * rhsWidth + n + j]! -= f * spreadInputs[s * u + j]!
    }
    for (let j = 0; j < u; j++) rhs[r * rhsWidth + n + j]! -= rows[r * width + z + x + j]!
  }
  // the redundant rows give way to the rates of the ties
  redundantRows.forEach((row, t) => {
    k.fill(0, row * z, (row + 1) * z)
    rhs.fill(0, row * rhsWidth, (row + 1) * rhsWidth)
    for (let c = 0; c < nC; c++) {
      const cap = layout.caps[c]!
      k[row * z + cap.z]! += structure.ties[t * x + c]! / cap.farad
    }
    for (let l = 0; l < nL; l++) {
      const tie = structure.ties[t * x + nC + l]!
      if (tie !== 0) addInductorRate(layout, invL, l, tie, k, row * z)
    }
    for (let j = 0; j < u; j++) rhs[row * rhsWidth + n + u + j] = -structure.tieInputs[t * u + j]!
  })
  const solution = new Float64Array(z * rhsWidth)
  if (z > 0) {
    const order = new Int32Array(z)
    const scale = new Float64Array(z)
    if (factorLu(k, z, order, scale) >= 0) return undefined
    solveLu(k, z, order, scale, rhs, rhsWidth, solution)
  }
  const rates = stateRates(layout, structure, setting, solution, invL)
  const weight = free.map((s) => Math.sqrt(stateWeight(layout, structure, inductance, s)))
  // order by rate, fastest first, in energy coordinates, where the matrix is graded
  const speed = free.map((_, i) => Math.abs(rates[i * rhsWidth + i]!))
  for (let i = 0; i < n; i++)
    for (let j = 0; j < n; j++) {
      const cross = Math.abs(rates[i * rhsWidth + j]! * rates[j * rhsWidth + i]!)
      speed[i] = Math.max(speed[i]!, Math.sqrt(cross))
    }
  const sorted = free.map((_, i) => i).sort((i, j) => speed[j]! - speed[i]!)
  const a = new Float64Array(n * n)
  for (let i = 0; i < n; i++)
    for (let j = 0; j < n; j++) {
      const from = sorted[i]!
      const to = sorted[j]!
      a[i * n + j] = (rates[from * rhsWidth + to]! * weight[from]!) / weight[to]!
    }
  for (const value of a) if (!Number.isFinite(value)) return undefined
  const found = findModes(a, n)
  if (found === undefined) return undefined
  const modes = physicalModes(found, n, sorted, weight)
  const { count } = modes
  const forcing = (offset: number, w: Float64Array) => {
    const out = new Float64Array(count * u)
    for (let m = 0; m < count; m++)
      for (let i = 0; i < n; i++) {
        const f = w[m * n + i]!
        if (f !== 0) for (let j = 0; j < u; j++) out[m * u + j]! += f * rates[i * rhsWidth + offset + j]!
      }
    return out
  }
  return {
    setting,
    n,
    inputs: u,
    modes,
    longest_s: Math.min(Number.POSITIVE_INFINITY, ...modes.chains.map(longestOf)),
    bRe: forcing(n, modes.wRe),
    bIm: forcing(n, modes.wIm),
    rateRe: forcing(n + u, modes.wRe),
    rateIm: forcing(n + u, modes.wIm),
    rates,
    solution,
    inductance,
  }
}

function addInductorRate(
  layout: Layout,
  invL: Float64Array,
  inductor: number,
  gain: number,
  rows: Float64Array,
  at: number,
): void {
  const nL = layout.inductors.length
  for (let m = 0; m < nL; m++) {
    const f = gain * invL[inductor * nL + m]!
    if (f === 0) continue
    const { a, b } = layout.inductors[m]!
    if (a >= 0) rows[at + a]! += f
    if (b >= 0) rows[at + b]! -= f
  }
}

/** Rates of the free states as rows over (free | inputs | input rates). */
function stateRates(
  layout: Layout,
  structure: Structure,
  setting: Setting,
  solution: Float64Array,
  invL: Float64Array,
): Float64Array {
  const { z, u } = columnsOf(layout)
  const n = structure.free.length
  const w = n + 2 * u
  const nC = layout.caps.length
  const nL = layout.inductors.length
  const out = new Float64Array(n * w)
  const pick = new Float64Array(z)
  structure.free.forEach((s, i) => {
    if (s < nC) {
      const cap = layout.caps[s]!
      for (let j = 0; j < w; j++) out[i * w + j] = solution[cap.z * w + j]! / cap.farad
      return
    }
    if (s < nC + nL) {
      pick.fill(0)
      addInductorRate(layout, invL, s - nC, 1, pick, 0)
      for (let r = 0; r < layout.nodes.length; r++) {
        const f = pick[r]!
        if (f !== 0) for (let j = 0; j < w; j++) out[i * w + j]! += f * solution[r * w + j]!
      }
      return
    }
    const d = layout.devices.findIndex(
      (device) => device.kind === 'conductor' && device.charge === s - nC - nL,
    )
    const device = layout.devices[d]!
    if (device.kind !== 'conductor') return
    out[i * w + i] = -1 / device.transit_s
    const state = setting.devices[d]!
    if (state !== 1) return
    const g = device.slope[1]!
    for (let j = 0; j < w; j++) {
      if (device.a >= 0) out[i * w + j]! += g * solution[device.a * w + j]!
      if (device.b >= 0) out[i * w + j]! -= g * solution[device.b * w + j]!
    }
    out[i * w + n]! += device.shift[1]!
  })
  return out
}

/** Weight of a free state in twice the stored energy, other free states zero. */
function stateWeight(layout: Layout, structure: Structure, inductance: Float64Array, state: number): number {
  const n = structure.free.length
  const j = structure.free.indexOf(state)
  const nC = layout.caps.length
  const nL = layout.inductors.length
  if (state >= nC + nL) {
    const device = layout.devices.find((d) => d.kind === 'conductor' && d.charge === state - nC - nL)
    return device?.kind === 'conductor' ? 1 / (device.slope[1]! * device.transit_s) : 1
  }
  let total = 0
  layout.caps.forEach((cap, c) => {
    total += cap.farad * structure.spread[c * n + j]! ** 2
  })
  for (let l = 0; l < nL; l++) total += inductance[l * nL + l]! * structure.spread[(nC + l) * n + j]! ** 2
  return total
}

/** Undo ordering and energy weights. */
function physicalModes(found: Modes, n: number, sorted: readonly number[], weight: readonly number[]): Modes {
  const { count } = found
  const vRe = new Float64Array(n * count)
  const vIm = new Float64Array(n * count)
  const wRe = new Float64Array(count * n)
  const wIm = new Float64Array(count * n)
  for (let i = 0; i < n; i++) {
    const s = sorted[i]!
    for (let k = 0; k < count; k++) {
      vRe[s * count + k] = found.vRe[i * count + k]! / weight[s]!
      vIm[s * count + k] = found.vIm[i * count + k]! / weight[s]!
      wRe[k * n + s] = found.wRe[k * n + i]! * weight[s]!
      wIm[k * n + s] = found.wIm[k * n + i]! * weight[s]!
    }
  }
  return { ...found, vRe, vIm, wRe, wIm }
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
  const { count, vRe, vIm } = topology.modes
  const cRe = new Float64Array(count)
  const cIm = new Float64Array(count)
  for (let j = 0; j < n; j++) {
    const f = flat[j]!
    if (f === 0) continue
    for (let k = 0; k < count; k++) {
      cRe[k]! += f * vRe[j * count + k]!
      cIm[k]! += f * vIm[j * count + k]!
    }
  }
  return {
    cRe,
    cIm,
    d: flat.slice(n, n + u),
    e: flat.slice(n + u),
    x: flat.slice(0, n),
    grossX: gross.slice(0, n),
    grossU: gross.slice(n),
  }
}
