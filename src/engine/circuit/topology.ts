import { longestOf } from './chain.ts'
import { factorLu, inverse, solveLu } from './dense.ts'
import { energyMatrix, modesOf, modesThrough, stateWeight } from './energy-modes.ts'
import { product } from './exponential.ts'
import { combineColumns, gradedBasis, inStates } from './graded.ts'
import type { Layout } from './layout.ts'
import type { Modes } from './modes.ts'
import { columnsOf, type Setting, stampEquations } from './stamp.ts'
import { addInductorRate, stateRates } from './state-rates.ts'
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
export interface Graded {
  readonly solution: Float64Array
  readonly down: Float64Array
  readonly vRe: Float64Array
  readonly vIm: Float64Array
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
