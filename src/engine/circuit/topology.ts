import { longestOf } from './chain.ts'
import { factorLu, inverse, solveLu } from './dense.ts'
import { product } from './exponential.ts'
import type { LinearForm } from './form.ts'
import { combineColumns, gradedBasis, inStates } from './graded.ts'
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
  /** The same in a basis of its own, when some combinations of states are very fast. */
  readonly graded: Graded | undefined
  /** Inductance matrix of this topology. */
  readonly inductance: Float64Array
}

/** Solution and eigenvectors over coordinates y with states = down y. */
interface Graded {
  readonly solution: Float64Array
  readonly down: Float64Array
  readonly vRe: Float64Array
  readonly vIm: Float64Array
}

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
  const order = new Int32Array(z)
  const scale = new Float64Array(z)
  if (z > 0 && factorLu(k, z, order, scale) >= 0) return undefined
  const solve = (sides: Float64Array) => {
    const out = new Float64Array(z * rhsWidth)
    solveLu(k, z, order, scale, sides, rhsWidth, out)
    return out
  }
  const solution = solve(rhs)
  const rates = stateRates(layout, structure, setting, solution, invL)
  const weight = free.map((s) => Math.sqrt(stateWeight(layout, structure, inductance, s)))
  const plain = energyMatrix(rates, n, rhsWidth, weight)
  for (const value of plain.a) if (!Number.isFinite(value)) return undefined
  const basis = gradedBasis(plain.a, n)
  let modes: Modes | undefined
  let graded: Graded | undefined
  if (basis === undefined) modes = modesOf(plain, n, weight)
  else {
    const { up, down } = inStates(basis, plain.sorted, weight)
    const own = solve(combineColumns(rhs, z, rhsWidth, down, n))
    const moved = product(up, stateRates(layout, structure, setting, own, invL, down), n, n, rhsWidth)
    const found = modesThrough(moved, up, down, rhsWidth, weight)
    modes = found?.modes
    graded = found && { ...found.own, solution: own, down }
  }
  if (modes === undefined) return undefined
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
    graded,
    inductance,
  }
}

/** The matrix of the states in energy coordinates, fastest first, in which it is graded. */
function energyMatrix(
  rates: Float64Array,
  n: number,
  width: number,
  weight: readonly number[],
): { a: Float64Array; sorted: number[] } {
  const speed = weight.map((_, i) => Math.abs(rates[i * width + i]!))
  for (let i = 0; i < n; i++)
    for (let j = 0; j < n; j++) {
      const cross = Math.abs(rates[i * width + j]! * rates[j * width + i]!)
      speed[i] = Math.max(speed[i]!, Math.sqrt(cross))
    }
  const sorted = weight.map((_, i) => i).sort((i, j) => speed[j]! - speed[i]!)
  const a = new Float64Array(n * n)
  for (let i = 0; i < n; i++)
    for (let j = 0; j < n; j++) {
      const from = sorted[i]!
      const to = sorted[j]!
      a[i * n + j] = (rates[from * width + to]! * weight[from]!) / weight[to]!
    }
  return { a, sorted }
}

/** Modes of rates over coordinates y with states = down y, in those of the states, and the vectors over y. */
function modesThrough(
  rates: Float64Array,
  up: Float64Array,
  down: Float64Array,
  width: number,
  stateWeights: readonly number[],
): { readonly modes: Modes; readonly own: Pick<Graded, 'vRe' | 'vIm'> } | undefined {
  const n = stateWeights.length
  const weight = stateWeights.map((_, j) =>
    Math.sqrt(stateWeights.reduce((sum, w, i) => sum + (w * down[i * n + j]!) ** 2, 0)),
  )
  const found = modesOf(energyMatrix(rates, n, width, weight), n, weight)
  if (found === undefined) return undefined
  const { count, vRe, vIm, wRe, wIm } = found
  const modes = {
    ...found,
    vRe: product(down, vRe, n, n, count),
    vIm: product(down, vIm, n, n, count),
    wRe: product(wRe, up, count, n, n),
    wIm: product(wIm, up, count, n, n),
  }
  return { modes, own: { vRe, vIm } }
}

/** Modes of a matrix in energy coordinates, in those of the states. */
function modesOf(
  { a, sorted }: { readonly a: Float64Array; readonly sorted: readonly number[] },
  n: number,
  weight: readonly number[],
): Modes | undefined {
  const found = findModes(a, n)
  return found === undefined ? undefined : physicalModes(found, n, sorted, weight)
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

/** Rates of the free states as rows over (free | inputs | input rates), or over coordinates y with free = down y. */
function stateRates(
  layout: Layout,
  structure: Structure,
  setting: Setting,
  solution: Float64Array,
  invL: Float64Array,
  down?: Float64Array,
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
    if (down === undefined) out[i * w + i] = -1 / device.transit_s
    else for (let j = 0; j < n; j++) out[i * w + j] = -down[i * n + j]! / device.transit_s
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
