import { vacuumPermeability_H_per_m } from '../wire/index.ts'
import { centreLineField, eachHarmonic, harmonicEnergy, newPatterns, type Patterns } from './each-harmonic.ts'
import { mouthSpectrum } from './gap-mouth.ts'
import { meshSlot, type SlotMesh } from './slot.ts'
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
const rowSpectrum = (model: WindowModel): Float64Array => {
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
const wallSpectrum = (model: WindowModel): { readonly post: Float64Array; readonly outer: Float64Array } => {
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

/** Source patterns of a model: one per winding, with one ampere. */
export const windingPatterns = (model: WindowModel, rowsUsed: (row: number) => boolean): Patterns => {
  const { rows, bands, turns, harmonics } = model
  const patterns = newPatterns(turns.length, bands.length, harmonics)
  const spectrum = rowSpectrum(model)
  const wall = wallSpectrum(model)
  for (let n = 0; n <= harmonics; n++) {
    rows.forEach((row, r) => {
      if (rowsUsed(r))
        patterns.density[(n * turns.length + row.winding) * bands.length + row.band]! +=
          spectrum[n * rows.length + r]!
    })
    for (let w = 0; w < turns.length; w++) {
      patterns.post[n * turns.length + w] = turns[w]! * wall.post[n]!
      patterns.outer[n * turns.length + w] = turns[w]! * wall.outer[n]!
    }
  }
  return patterns
}

/** Solve the static field of a window for every winding. Cost grows with harmonics × (bands + windings). */
export const solveWindow = (model: WindowModel): WindowField => {
  const { slot, bands, turns, harmonics } = model
  const mesh = meshSlot(slot, bands)
  const windings = turns.length
  const energy_H = new Float64Array(windings * windings)
  const axial_T = new Float64Array((harmonics + 1) * bands.length * windings)
  const radial_T = new Float64Array((harmonics + 1) * bands.length * windings)
  const patterns = windingPatterns(model, () => true)
  const scale = slot.planar ? slot.height_m / 2 : Math.PI * slot.height_m

  solveMean(mesh, patterns, energy_H, axial_T)
  eachHarmonic(mesh, patterns, harmonics, (solution) => {
    for (let i = 0; i < windings; i++)
      for (let j = 0; j <= i; j++) {
        const energy = scale * harmonicEnergy(mesh, solution, i, j)
        energy_H[i * windings + j]! += energy
        if (i !== j) energy_H[j * windings + i]! += energy
      }
    for (let b = 0; b < bands.length; b++)
      for (let w = 0; w < windings; w++) {
        const [axial, radial] = centreLineField(mesh, solution, w, b)
        const at = (solution.n * bands.length + b) * windings + w
        axial_T[at] = axial
        radial_T[at] = radial
      }
  })
  return { model, mesh, energy_H, axial_T, radial_T }
}

/**
 * Harmonic 0: the one-dimensional field, Hz from Ampère's law along the height. Adds to the energy matrix and writes
 * the field on the centre lines.
 */
export const solveMean = (
  mesh: SlotMesh,
  patterns: Patterns,
  energy_H: Float64Array,
  axial_T: Float64Array,
): void => {
  const { count, bands } = patterns
  const { slot } = mesh
  const nodes = mesh.nodes_m.length
  const field = new Float64Array(count * nodes)
  for (let w = 0; w < count; w++) {
    let value = -patterns.post[w]!
    field[w * nodes] = value
    for (let e = 0; e < nodes - 1; e++) {
      for (let b = 0; b < bands; b++)
        if (e >= mesh.bandFirst[b]! && e < mesh.bandEnd[b]!)
          value -= patterns.density[w * bands + b]! * (mesh.nodes_m[e + 1]! - mesh.nodes_m[e]!)
      field[w * nodes + e + 1] = value
    }
  }
  const mu = vacuumPermeability_H_per_m
  for (let i = 0; i < count; i++)
    for (let j = 0; j < count; j++) {
      let sum = 0
      for (let e = 0; e < nodes - 1; e++) {
        const [p, q] = [i * nodes + e, j * nodes + e]
        const step = mesh.nodes_m[e + 1]! - mesh.nodes_m[e]!
        const round = slot.planar ? 1 : Math.PI * (mesh.nodes_m[e]! + mesh.nodes_m[e + 1]!)
        const [a, b, c, d] = [field[p]!, field[p + 1]!, field[q]!, field[q + 1]!]
        sum += (step * round * (2 * a * c + 2 * b * d + a * d + b * c)) / 6
      }
      energy_H[i * count + j]! += mu * slot.height_m * sum
    }
  for (let b = 0; b < bands; b++)
    for (let w = 0; w < count; w++) axial_T[b * count + w] = mu * field[w * nodes + mesh.bandCentre[b]!]!
}
