import { sheetProximityFactor, sheetSkinFactor, vacuumPermeability_H_per_m } from '../wire/index.ts'
import { type ComplexSystem, solveComplex } from './complex-solve.ts'
import { centreLineField, eachHarmonic, harmonicEnergy, type Patterns } from './each-harmonic.ts'
import { cutFoil, type FoilSegments, isSymmetric } from './foil-segments.ts'
import { meshSlot, type SlotMesh } from './slot.ts'
import type { WindowModel } from './types.ts'
import { solveMean, windingPatterns } from './window-field.ts'

/**
 * Foils as sheets whose current is free to move along their width.
 *
 * Every foil is cut into strips, which are parallel paths of one turn: each strip carries I_s with
 * Z_s I_s + jω Σ M_st I_t + jω Σ M_sw i_w = V, one V for a foil, ΣI_s the current of the turn. M comes from the
 * harmonics of the window; the even harmonic 0 is the same for all strips of a foil and drops into V. Z_s is the
 * one-dimensional impedance of a sheet, (ρ l/(t w)) x coth x with x = (1 + j) t/2δ. Loss is that of the sheet's
 * own current and of the mean field along its faces (Dowell's two functions), strip by strip.
 */
export interface FoilSystem {
  readonly model: WindowModel
  readonly mesh: SlotMesh
  readonly foils: readonly FoilSegments[]
  readonly strips: number
  /** Strip to strip, H (H/m when planar). */
  readonly mutual_H: Float64Array
  /** Strip to winding, without the foils' own currents: index strip · windings + winding. */
  readonly driving_H: Float64Array
  /** Amplitude of each strip's unit current in each harmonic, A/m²: index n · strips + strip. */
  readonly amplitude: Float64Array
  /** Centre-line fields of the windings without foils, index (n · bands + band) · windings + winding. */
  readonly axial_T: Float64Array
  readonly radial_T: Float64Array
  /** Centre-line fields of a foil's unit amplitude, index (n · bands + band) · foils + foil. */
  readonly foilAxial: Float64Array
  readonly foilRadial: Float64Array
}

const greatestStrips = 112

/** Prepare everything about the foils of a window that does not depend on frequency. */
export const prepareFoils = (model: WindowModel, foilRows: readonly number[]): FoilSystem => {
  const { slot, bands, turns, harmonics } = model
  const mesh = meshSlot(slot, bands)
  const sides = isSymmetric(model) ? 2 : 1
  const whole = Math.max(8, Math.min(40, Math.floor(greatestStrips / foilRows.length)))
  const each = Math.ceil(whole / sides)
  const foils = foilRows.map((row) => cutFoil(model, row, each, sides))
  const strips = each * foils.length
  const windings = turns.length
  const count = windings + foils.length
  const isFoil = new Set(foilRows)
  const base = windingPatterns(model, (row) => !isFoil.has(row))
  const patterns: Patterns = {
    count,
    bands: bands.length,
    density: new Float64Array((harmonics + 1) * count * bands.length),
    post: new Float64Array((harmonics + 1) * count),
    outer: new Float64Array((harmonics + 1) * count),
  }
  for (let n = 0; n <= harmonics; n++) {
    for (let w = 0; w < windings; w++) {
      for (let b = 0; b < bands.length; b++)
        patterns.density[(n * count + w) * bands.length + b] =
          base.density[(n * windings + w) * bands.length + b]!
      patterns.post[n * count + w] = base.post[n * windings + w]!
      patterns.outer[n * count + w] = base.outer[n * windings + w]!
    }
    foils.forEach((foil, f) => {
      if (n % sides === 0) patterns.density[(n * count + windings + f) * bands.length + foil.band] = 1
    })
  }
  const system: FoilSystem = {
    model,
    mesh,
    foils,
    strips,
    mutual_H: new Float64Array(strips * strips),
    driving_H: new Float64Array(strips * windings),
    amplitude: stripAmplitudes(model, foils, strips),
    axial_T: new Float64Array((harmonics + 1) * bands.length * windings),
    radial_T: new Float64Array((harmonics + 1) * bands.length * windings),
    foilAxial: new Float64Array((harmonics + 1) * bands.length * foils.length),
    foilRadial: new Float64Array((harmonics + 1) * bands.length * foils.length),
  }
  // The even field counts all currents, foils included; it does not depend on how they spread along the width.
  const even = windingPatterns({ ...model, harmonics: 0 }, () => true)
  solveMean(mesh, even, new Float64Array(windings * windings), system.axial_T)
  const scale = slot.planar ? slot.height_m / 2 : Math.PI * slot.height_m
  eachHarmonic(mesh, patterns, harmonics, (solution) => {
    const amplitude = system.amplitude.subarray(solution.n * strips, (solution.n + 1) * strips)
    for (let f = 0; f < foils.length; f++) {
      // The lower half of a symmetric matrix; the upper one is copied when all harmonics are in.
      for (let g = 0; g <= f; g++) {
        const energy = scale * harmonicEnergy(mesh, solution, windings + f, windings + g)
        for (let s = f * each; s < (f + 1) * each; s++) {
          const part = energy * amplitude[s]!
          for (let t = g * each, at = s * strips + t; t < (g + 1) * each; t++, at++)
            system.mutual_H[at]! += part * amplitude[t]!
        }
      }
      for (let w = 0; w < windings; w++) {
        const energy = scale * harmonicEnergy(mesh, solution, windings + f, w)
        for (let s = f * each; s < (f + 1) * each; s++)
          system.driving_H[s * windings + w]! += energy * amplitude[s]!
      }
    }
    for (let b = 0; b < bands.length; b++) {
      const at = solution.n * bands.length + b
      for (let w = 0; w < windings; w++)
        [system.axial_T[at * windings + w], system.radial_T[at * windings + w]] = centreLineField(
          mesh,
          solution,
          w,
          b,
        )
      for (let f = 0; f < foils.length; f++)
        [system.foilAxial[at * foils.length + f], system.foilRadial[at * foils.length + f]] = centreLineField(
          mesh,
          solution,
          windings + f,
          b,
        )
    }
  })
  for (let s = 0; s < strips; s++)
    for (let t = 0; t < s; t++) system.mutual_H[t * strips + s] = system.mutual_H[s * strips + t]!
  return system
}

const stripAmplitudes = (
  model: WindowModel,
  foils: readonly FoilSegments[],
  strips: number,
): Float64Array => {
  const amplitude = new Float64Array((model.harmonics + 1) * strips)
  let strip = 0
  for (const foil of foils) {
    const { bottom_m, top_m } = model.bands[foil.band]!
    const density = 2 / (model.slot.height_m * (top_m - bottom_m))
    for (let s = 0; s < foil.centre_m.length; s++, strip++) {
      const cosine = foil.cosine[s]!
      // A strip and its mirror image: odd harmonics cancel.
      for (let n = foil.sides; n <= model.harmonics; n += foil.sides) {
        const half = (n * Math.PI * foil.width_m[s]!) / (2 * model.slot.height_m)
        amplitude[n * strips + strip] = (density * cosine[n]! * Math.sin(half)) / half
      }
    }
  }
  return amplitude
}

/** Field of the window at one frequency with the foils' currents where they want to flow. */
export interface FoilSolution {
  /** Centre-line spectra with the foils' share, as in `WindowField`, real and imaginary part. */
  readonly axialReal: Float64Array
  readonly axialImaginary: Float64Array
  readonly radialReal: Float64Array
  readonly radialImaginary: Float64Array
  /** Loss in each foil: index (foil · windings + i) · windings + j, ohm (ohm/m when planar). */
  readonly loss_ohm: Float64Array
}

/** Solve the strips at one frequency; undefined when the equations are singular. `length_m` of each foil's turn. */
export const solveFoils = (
  system: FoilSystem,
  frequency_Hz: number,
  resistivity_ohm_m: number,
  length_m: readonly number[],
): FoilSolution | undefined => {
  const { model, foils, strips } = system
  const windings = model.turns.length
  const bands = model.bands.length
  const each = strips / foils.length
  const omega = 2 * Math.PI * frequency_Hz
  const mu = vacuumPermeability_H_per_m
  const delta_m = Math.sqrt((2 * resistivity_ohm_m) / (omega * mu))
  const size = strips + foils.length
  const equations: ComplexSystem = {
    size,
    sides: windings,
    real: new Float64Array(size * size),
    imaginary: new Float64Array(size * size),
    sideReal: new Float64Array(size * windings),
    sideImaginary: new Float64Array(size * windings),
  }
  foils.forEach((foil, f) => {
    const { bottom_m, top_m } = model.bands[foil.band]!
    const thick_m = top_m - bottom_m
    const xi = thick_m / delta_m
    const skin = sheetSkinFactor(xi)
    // Im x coth x, less ξ²/6 which M already holds as the field inside an even sheet.
    const internal = sheetReactance(xi) - (xi * xi) / 6
    for (let s = 0; s < each; s++) {
      const row = f * each + s
      const strip_ohm = (resistivity_ohm_m * length_m[f]!) / (thick_m * foil.sides * foil.width_m[s]!)
      for (let t = 0; t < strips; t++)
        equations.imaginary[row * size + t] = omega * system.mutual_H[row * strips + t]!
      equations.real[row * size + row] = strip_ohm * skin
      equations.imaginary[row * size + row]! += strip_ohm * internal
      for (let w = 0; w < windings; w++)
        equations.sideImaginary[row * windings + w] = -omega * system.driving_H[row * windings + w]!
    }
    scaleVoltage(equations, f, each, strips)
    const { winding, current } = model.rows[foil.row]!
    equations.sideReal[(strips + f) * windings + winding] = current
  })
  if (!solveComplex(equations)) return undefined

  const solution: FoilSolution = {
    axialReal: system.axial_T.slice(),
    axialImaginary: new Float64Array(system.axial_T.length),
    radialReal: system.radial_T.slice(),
    radialImaginary: new Float64Array(system.radial_T.length),
    loss_ohm: new Float64Array(foils.length * windings * windings),
  }
  addFoilField(system, equations, solution)
  foils.forEach((foil, f) => {
    const { bottom_m, top_m } = model.bands[foil.band]!
    const xi = (top_m - bottom_m) / delta_m
    const sheet_ohm = resistivity_ohm_m / (top_m - bottom_m)
    const skin = sheetSkinFactor(xi)
    const proximity = sheetProximityFactor(xi)
    const along = new Float64Array(2 * windings)
    for (let s = 0; s < each; s++) {
      const cosine = foil.cosine[s]!
      const step = foil.sides * bands * windings
      along.fill(0)
      for (let w = 0; w < windings; w++)
        for (let n = 0, at = foil.band * windings + w; n <= model.harmonics; n += foil.sides, at += step) {
          along[2 * w]! += (solution.axialReal[at]! * cosine[n]!) / mu
          along[2 * w + 1]! += (solution.axialImaginary[at]! * cosine[n]!) / mu
        }
      const strip = (f * each + s) * windings
      const wide_m = foil.sides * foil.width_m[s]!
      const area = wide_m * length_m[f]!
      for (let i = 0; i < windings; i++)
        for (let j = 0; j < windings; j++) {
          const currents =
            equations.sideReal[strip + i]! * equations.sideReal[strip + j]! +
            equations.sideImaginary[strip + i]! * equations.sideImaginary[strip + j]!
          const fields = along[2 * i]! * along[2 * j]! + along[2 * i + 1]! * along[2 * j + 1]!
          solution.loss_ohm[(f * windings + i) * windings + j]! +=
            area * sheet_ohm * ((skin * currents) / wide_m ** 2 + proximity * fields)
        }
    }
  })
  return solution
}

/** Replace the placeholders of a foil's voltage column and current row by even weights. */
const scaleVoltage = (equations: ComplexSystem, f: number, each: number, strips: number): void => {
  const { size, real } = equations
  let mean = 0
  for (let s = f * each; s < (f + 1) * each; s++) mean += real[s * size + s]! / each
  for (let s = f * each; s < (f + 1) * each; s++) {
    real[s * size + strips + f] = -mean
    real[(strips + f) * size + s] = 1
  }
}

const addFoilField = (system: FoilSystem, solved: ComplexSystem, solution: FoilSolution): void => {
  const { model, foils, strips } = system
  const windings = model.turns.length
  const bands = model.bands.length
  const each = strips / foils.length
  const { sides } = foils[0]!
  for (let n = sides; n <= model.harmonics; n += sides)
    for (let f = 0; f < foils.length; f++)
      for (let w = 0; w < windings; w++) {
        let real = 0
        let imaginary = 0
        for (let s = f * each; s < (f + 1) * each; s++) {
          const amplitude = system.amplitude[n * strips + s]!
          real += amplitude * solved.sideReal[s * windings + w]!
          imaginary += amplitude * solved.sideImaginary[s * windings + w]!
        }
        for (let b = 0; b < bands; b++) {
          const from = (n * bands + b) * foils.length + f
          const to = (n * bands + b) * windings + w
          solution.axialReal[to]! += real * system.foilAxial[from]!
          solution.axialImaginary[to]! += imaginary * system.foilAxial[from]!
          solution.radialReal[to]! += real * system.foilRadial[from]!
          solution.radialImaginary[to]! += imaginary * system.foilRadial[from]!
        }
      }
}

/** Im x coth x with x = (1 + j) ξ/2: (ξ/2) (sinh ξ − sin ξ)/(cosh ξ − cos ξ), which starts as ξ²/6. */
const sheetReactance = (xi: number): number =>
  xi < 0.02
    ? (xi * xi) / 6
    : xi > 40
      ? xi / 2
      : ((xi / 2) * (Math.sinh(xi) - Math.sin(xi))) / (Math.cosh(xi) - Math.cos(xi))
