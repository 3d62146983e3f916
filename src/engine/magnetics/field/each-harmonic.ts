import { vacuumPermeability_H_per_m } from '../wire/index.ts'
import { factorMode, newSlotMode, type SlotMesh, type SlotMode, solveMode } from './slot.ts'

/** One harmonic of a set of source patterns and the potential that answers them, all arrays pattern by pattern. */
export interface HarmonicSolution {
  readonly n: number
  readonly k: number
  readonly mode: SlotMode
  /** Current density per element, A/m². */
  readonly density: Float64Array
  /** Nodal load of bands and walls, without μ0. */
  readonly load: Float64Array
  /** Nodal solution, √r A. */
  readonly u: Float64Array
}

/** Amplitudes of a set of patterns: density per band and sheet currents on both walls, index n · count + …. */
export interface Patterns {
  readonly count: number
  readonly bands: number
  /** Index (n · count + pattern) · bands + band. */
  readonly density: Float64Array
  /** Index n · count + pattern. */
  readonly post: Float64Array
  readonly outer: Float64Array
}

export const newPatterns = (count: number, bands: number, harmonics: number): Patterns => ({
  count,
  bands,
  density: new Float64Array((harmonics + 1) * count * bands),
  post: new Float64Array((harmonics + 1) * count),
  outer: new Float64Array((harmonics + 1) * count),
})

/** Greatest amplitude of each kind of source over all harmonics. */
const largestOf = ({ density, post, outer }: Patterns): { readonly body: number; readonly wall: number } => {
  let body = 0
  let wall = 0
  for (const value of density) body = Math.max(body, Math.abs(value))
  for (const value of post) wall = Math.max(wall, Math.abs(value))
  for (const value of outer) wall = Math.max(wall, Math.abs(value))
  return { body, wall }
}

/** Amplitudes that are nothing but rounding, of the greatest. */
const rounding = 1e-12

const isSilent = (patterns: Patterns, n: number, largest: { body: number; wall: number }): boolean => {
  const { count, bands, density, post, outer } = patterns
  for (let i = n * count * bands; i < (n + 1) * count * bands; i++)
    if (Math.abs(density[i]!) > rounding * largest.body) return false
  for (let i = n * count; i < (n + 1) * count; i++)
    if (Math.abs(post[i]!) > rounding * largest.wall || Math.abs(outer[i]!) > rounding * largest.wall)
      return false
  return true
}

/**
 * Solve harmonics 1 … of all patterns and hand each to `visit`; the arrays are reused between calls. Harmonics without
 * sources, as every odd one of a window that is symmetric about its middle, are left out.
 */
export const eachHarmonic = (
  mesh: SlotMesh,
  patterns: Patterns,
  harmonics: number,
  visit: (solution: HarmonicSolution) => void,
): void => {
  const nodes = mesh.nodes_m.length
  const { count, bands } = patterns
  const largest = largestOf(patterns)
  const mode = newSlotMode(mesh)
  const density = new Float64Array(count * (nodes - 1))
  const load = new Float64Array(count * nodes)
  const u = new Float64Array(count * nodes)
  for (let n = 1; n <= harmonics; n++) {
    if (isSilent(patterns, n, largest)) continue
    const k = (n * Math.PI) / mesh.slot.height_m
    factorMode(mesh, k, mode)
    density.fill(0)
    load.fill(0)
    for (let p = 0; p < count; p++) {
      for (let b = 0; b < bands; b++) {
        const amount = patterns.density[(n * count + p) * bands + b]!
        if (amount === 0) continue
        for (let e = mesh.bandFirst[b]!; e < mesh.bandEnd[b]!; e++) {
          density[p * (nodes - 1) + e]! += amount
          const part = amount * mode.load[e]!
          load[p * nodes + e]! += part
          load[p * nodes + e + 1]! += part
        }
      }
      load[p * nodes]! += patterns.post[n * count + p]! * mesh.rootNode[0]!
      load[p * nodes + nodes - 1]! += patterns.outer[n * count + p]! * mesh.rootNode[nodes - 1]!
      for (let i = p * nodes; i < (p + 1) * nodes; i++) u[i] = vacuumPermeability_H_per_m * load[i]!
      solveMode(mode, u, p * nodes)
    }
    visit({ n, k, mode, density, load, u })
  }
}

/**
 * Mutual energy of patterns p and q in one harmonic: ∫ J_p A_q over the section per unit of axial norm; multiply by
 * π h (round) or h/2 (planar).
 */
export const harmonicEnergy = (mesh: SlotMesh, s: HarmonicSolution, p: number, q: number): number => {
  const nodes = mesh.nodes_m.length
  let sum = 0
  for (let i = 0; i < nodes; i++) sum += s.load[p * nodes + i]! * s.u[q * nodes + i]!
  for (let e = 0; e < nodes - 1; e++)
    sum +=
      vacuumPermeability_H_per_m *
      s.mode.bubble[e]! *
      s.density[p * (nodes - 1) + e]! *
      s.density[q * (nodes - 1) + e]!
  return sum
}

/** Amplitudes of Bz (of cos kz) and Br (of sin kz) of pattern p on the centre line of a band. */
export const centreLineField = (
  mesh: SlotMesh,
  s: HarmonicSolution,
  p: number,
  band: number,
): readonly [number, number] => {
  const nodes = mesh.nodes_m.length
  const e = mesh.bandCentre[band]!
  const here = s.u[p * nodes + e]!
  const slope =
    s.mode.transfer[e]! * s.u[p * nodes + e + 1]! -
    s.mode.stiffness[e]! * here +
    vacuumPermeability_H_per_m * s.density[p * (nodes - 1) + e]! * s.mode.load[e]!
  const root = mesh.rootNode[e]!
  return [(slope + (mesh.slot.planar ? 0 : here / (2 * mesh.nodes_m[e]!))) / root, (s.k * here) / root]
}
