import { vacuumPermeability_H_per_m } from '../wire/index.ts'
import { mouthSpectrum } from './gap-mouth.ts'
import { factorMode, meshSlot, newSlotMode, type SlotMesh, solveMode } from './slot.ts'
import type { WindowModel } from './types.ts'

/** Static field of a window, one solution for each winding with one ampere. */
export interface WindowField {
  readonly model: WindowModel
  readonly mesh: SlotMesh
  /** Energy matrix, row by row (H, or H/m when planar): field energy is ½ ΣΣ W i j. Symmetric, positive. */
  readonly energy_H: Float64Array
  /**
   * On the centre line of each band, harmonic n from 0: axial and radial flux density of one ampere as
   * Bz = Σ axial cos(kz), Br = Σ radial sin(kz), z from the lower plate. Index (n · bands + band) · windings + winding.
   */
  readonly axial_T: Float64Array
  readonly radial_T: Float64Array
}

/** cos and sin of n π z/h for n = 0 … harmonics of one z from mid-height, by rotation. */
export const axialTable = (
  z_m: number,
  height_m: number,
  harmonics: number,
): { readonly cosine: Float64Array; readonly sine: Float64Array } => {
  const cosine = new Float64Array(harmonics + 1)
  const sine = new Float64Array(harmonics + 1)
  const angle = Math.PI * (z_m / height_m + 0.5)
  const c = Math.cos(angle)
  const s = Math.sin(angle)
  cosine[0] = 1
  for (let n = 1; n <= harmonics; n++) {
    cosine[n] = cosine[n - 1]! * c - sine[n - 1]! * s
    sine[n] = sine[n - 1]! * c + cosine[n - 1]! * s
  }
  return { cosine, sine }
}

/** Fourier amplitudes of the current density of every row, index (n · rows + row): A/m² per ampere. */
export const rowSpectrum = (model: WindowModel): Float64Array => {
  const { rows, bands, slot, harmonics } = model
  const spectrum = new Float64Array((harmonics + 1) * rows.length)
  rows.forEach((row, r) => {
    const band = bands[row.band]!
    const density = row.current / ((band.top_m - band.bottom_m) * slot.height_m)
    for (const z_m of row.z_m) {
      const { cosine } = axialTable(z_m, slot.height_m, harmonics)
      for (let n = 0; n <= harmonics; n++) spectrum[n * rows.length + r]! += cosine[n]!
    }
    spectrum[r]! *= density
    for (let n = 1; n <= harmonics; n++) {
      const half = (n * Math.PI * row.width_m) / (2 * slot.height_m)
      spectrum[n * rows.length + r]! *= (2 * density * Math.sin(half)) / half
    }
  })
  return spectrum
}

/** Fourier amplitudes of the wall currents that close one net ampere-turn, post wall then outer wall: A/m. */
export const wallSpectrum = (
  model: WindowModel,
): { readonly post: Float64Array; readonly outer: Float64Array } => {
  const { harmonics, slot, gaps } = model
  const post = new Float64Array(harmonics + 1)
  const outer = new Float64Array(harmonics + 1)
  let closed = 0
  for (const gap of gaps) {
    const target = gap.wall === 'post' ? post : outer
    const { cosine } = axialTable(gap.z_m, slot.height_m, harmonics)
    target[0]! -= gap.share / slot.height_m
    for (let n = 1; n <= harmonics; n++)
      target[n]! -=
        ((2 * gap.share) / slot.height_m) *
        cosine[n]! *
        mouthSpectrum((n * Math.PI * gap.length_m) / (2 * slot.height_m))
    closed += gap.share
  }
  // What the gaps leave drops evenly along the core beside the window.
  post[0]! -= (1 - closed) / 2 / slot.height_m
  outer[0]! -= (1 - closed) / 2 / slot.height_m
  return { post, outer }
}

/** Solve the static field of a window for every winding. Cost grows with harmonics × (bands + windings). */
export const solveWindow = (model: WindowModel): WindowField => {
  const { slot, bands, rows, turns, harmonics } = model
  const mesh = meshSlot(slot, bands)
  const windings = turns.length
  const nodes = mesh.nodes_m.length
  const energy_H = new Float64Array(windings * windings)
  const axial_T = new Float64Array((harmonics + 1) * bands.length * windings)
  const radial_T = new Float64Array((harmonics + 1) * bands.length * windings)
  const spectrum = rowSpectrum(model)
  const wall = wallSpectrum(model)
  const mode = newSlotMode(mesh)
  const u = new Float64Array(windings * nodes)
  const load = new Float64Array(windings * nodes)
  const density = new Float64Array(windings * (nodes - 1))
  const mu = vacuumPermeability_H_per_m
  const scale = slot.planar ? slot.height_m / 2 : Math.PI * slot.height_m

  solveMean(model, mesh, spectrum, wall, energy_H, axial_T)

  for (let n = 1; n <= harmonics; n++) {
    const k = (n * Math.PI) / slot.height_m
    factorMode(mesh, k, mode)
    density.fill(0)
    rows.forEach((row, r) => {
      const amount = spectrum[n * rows.length + r]!
      for (let e = mesh.bandFirst[row.band]!; e < mesh.bandEnd[row.band]!; e++)
        density[row.winding * (nodes - 1) + e]! += amount
    })
    load.fill(0)
    for (let w = 0; w < windings; w++) {
      const base = w * nodes
      for (let e = 0; e < nodes - 1; e++) {
        const part = density[w * (nodes - 1) + e]! * mode.load[e]!
        load[base + e]! += part
        load[base + e + 1]! += part
      }
      load[base]! += turns[w]! * wall.post[n]! * mesh.rootNode[0]!
      load[base + nodes - 1]! += turns[w]! * wall.outer[n]! * mesh.rootNode[nodes - 1]!
      for (let i = 0; i < nodes; i++) u[base + i] = mu * load[base + i]!
      solveMode(mode, u, base)
    }
    for (let i = 0; i < windings; i++)
      for (let j = 0; j <= i; j++) {
        let sum = 0
        for (let p = 0; p < nodes; p++) sum += load[i * nodes + p]! * u[j * nodes + p]!
        for (let e = 0; e < nodes - 1; e++)
          sum += mu * mode.bubble[e]! * density[i * (nodes - 1) + e]! * density[j * (nodes - 1) + e]!
        energy_H[i * windings + j]! += scale * sum
        if (i !== j) energy_H[j * windings + i]! += scale * sum
      }
    for (let b = 0; b < bands.length; b++) {
      const e = mesh.bandCentre[b]!
      const root = mesh.rootNode[e]!
      for (let w = 0; w < windings; w++) {
        const here = u[w * nodes + e]!
        const slope =
          mode.transfer[e]! * u[w * nodes + e + 1]! -
          mode.stiffness[e]! * here +
          mu * density[w * (nodes - 1) + e]! * mode.load[e]!
        const at = (n * bands.length + b) * windings + w
        axial_T[at] = (slope + (slot.planar ? 0 : here / (2 * mesh.nodes_m[e]!))) / root
        radial_T[at] = (k * here) / root
      }
    }
  }
  return { model, mesh, energy_H, axial_T, radial_T }
}

/** Harmonic 0: the one-dimensional field, Hz from Ampère's law along the height. */
const solveMean = (
  model: WindowModel,
  mesh: SlotMesh,
  spectrum: Float64Array,
  wall: { readonly post: Float64Array },
  energy_H: Float64Array,
  axial_T: Float64Array,
): void => {
  const { slot, rows, turns, bands } = model
  const windings = turns.length
  const elements = mesh.nodes_m.length - 1
  const mu = vacuumPermeability_H_per_m
  const field = new Float64Array(windings * (elements + 1))
  for (let w = 0; w < windings; w++) {
    const density = new Float64Array(elements)
    rows.forEach((row, r) => {
      if (row.winding !== w) return
      for (let e = mesh.bandFirst[row.band]!; e < mesh.bandEnd[row.band]!; e++) density[e]! += spectrum[r]!
    })
    let value = -turns[w]! * wall.post[0]!
    for (let e = 0; e <= elements; e++) {
      field[w * (elements + 1) + e] = value
      if (e < elements) value -= density[e]! * (mesh.nodes_m[e + 1]! - mesh.nodes_m[e]!)
    }
  }
  for (let i = 0; i < windings; i++)
    for (let j = 0; j < windings; j++) {
      let sum = 0
      for (let e = 0; e < elements; e++) {
        const [p, q] = [i * (elements + 1) + e, j * (elements + 1) + e]
        const step = mesh.nodes_m[e + 1]! - mesh.nodes_m[e]!
        const middle = slot.planar ? 1 : Math.PI * (mesh.nodes_m[e]! + mesh.nodes_m[e + 1]!)
        sum +=
          (step *
            middle *
            (2 * field[p]! * field[q]! +
              2 * field[p + 1]! * field[q + 1]! +
              field[p]! * field[q + 1]! +
              field[p + 1]! * field[q]!)) /
          6
      }
      energy_H[i * windings + j] = mu * slot.height_m * sum
    }
  for (let b = 0; b < bands.length; b++)
    for (let w = 0; w < windings; w++)
      axial_T[b * windings + w] = mu * field[w * (elements + 1) + mesh.bandCentre[b]!]!
}
