import { roundWireResponse, skinDepth_m as skinDepthOf_m, vacuumPermeability_H_per_m } from '../wire/index.ts'
import { type Conductor, fieldAtPoints, type WirePoints, wirePoints } from './conductors.ts'
import { type DipoleCoupling, dipoleCoupling, localField, rowField } from './dipoles.ts'
import { type FoilSystem, prepareFoils, solveFoils } from './foil-sheets.ts'
import { gradientAtPoints } from './gradient.ts'
import { rowPairs } from './row-pairs.ts'
import type { SectionModel } from './section-model.ts'
import { solveWindow, type WindowField } from './window-field.ts'

/** Above this number of wires each answers only its own row, taken as endless and even. */
const coupledWires = 800

/** Everything about the losses of one section that does not depend on frequency. */
export interface SectionLoss {
  readonly section: SectionModel
  readonly field: WindowField
  readonly points: WirePoints
  readonly static_A_per_m: Float64Array
  readonly gradient_T_per_m: Float64Array
  readonly coupling: DipoleCoupling | null
  readonly foils: FoilSystem | null
  readonly foilRows: readonly number[]
}

export const prepareSection = (section: SectionModel): SectionLoss => {
  const { model, conductors } = section
  const rowsOf = (wanted: (conductor: Conductor) => boolean): number[] =>
    conductors.flatMap((conductor, row) => (wanted(conductor) ? [row] : []))
  const field = solveWindow(model)
  const points = wirePoints(
    model,
    rowsOf((c) => c.kind === 'round' || c.kind === 'litz'),
  )
  const foilRows = rowsOf((c) => c.kind === 'foil')
  const pairs = rowPairs(model)
  return {
    section,
    field,
    points,
    static_A_per_m: fieldAtPoints(field, points),
    gradient_T_per_m:
      points.count <= coupledWires
        ? gradientAtPoints(model, points, pairs)
        : new Float64Array(model.turns.length * points.count * 2),
    coupling:
      points.count > 0 && points.count <= coupledWires ? dipoleCoupling(points, model.slot, pairs) : null,
    foils: foilRows.length > 0 ? prepareFoils(model, foilRows) : null,
    foilRows,
  }
}

/** How one round or litz conductor behaves at one frequency. */
interface WireAnswer {
  /** Own loss per metre, Ω/m for its own current. */
  readonly own_ohm_per_m: number
  /** Loss per metre and square of the local field, Ω·m. */
  readonly field_ohm_m: number
  /** Loss per metre and square of the field's gradient, Ω·m per (T/m)². */
  readonly gradient_ohm: number
  /** Dipole strength β a². */
  readonly real_m2: number
  readonly imaginary_m2: number
}

/**
 * Round wire by its Bessel response. Litz by strands: each has its own skin effect and sees the local field and that
 * of its bundle, whose mean square is I²/(2 π² D²) inside a bundle of diameter D; the bundle answers outward as one
 * wire of diameter D in which the strands' response is diluted by their share of the area.
 */
const wireAnswer = (conductor: Conductor, resistivity_ohm_m: number, frequency_Hz: number): WireAnswer => {
  if (conductor.kind === 'foil' || conductor.kind === 'even')
    return { own_ohm_per_m: 0, field_ohm_m: 0, gradient_ohm: 0, real_m2: 0, imaginary_m2: 0 }
  const diameter_m = conductor.kind === 'litz' ? conductor.strand_m : conductor.diameter_m
  const response = roundWireResponse(diameter_m, skinDepthOf_m(frequency_Hz, resistivity_ohm_m))
  const radius_m = diameter_m / 2
  const dc_ohm_per_m = resistivity_ohm_m / (Math.PI * radius_m * radius_m)
  const field_ohm_m =
    4 *
    Math.PI *
    Math.PI *
    frequency_Hz *
    vacuumPermeability_H_per_m *
    radius_m *
    radius_m *
    Math.abs(response.dipoleImaginary)
  const square_m2 = radius_m * radius_m
  if (conductor.kind === 'round')
    return {
      own_ohm_per_m: dc_ohm_per_m * response.resistanceFactor,
      field_ohm_m,
      // c = gradient/2; twice the mean loss, as for the others.
      gradient_ohm:
        (2 * Math.PI * Math.PI * frequency_Hz * radius_m ** 4 * Math.abs(response.quadrupoleImaginary)) /
        vacuumPermeability_H_per_m,
      real_m2: response.dipoleReal * square_m2,
      imaginary_m2: response.dipoleImaginary * square_m2,
    }
  const { strands, bundle_m, lay } = conductor
  const all_ohm_m = strands * field_ohm_m * lay
  return {
    own_ohm_per_m:
      (dc_ohm_per_m * lay * response.resistanceFactor) / strands +
      all_ohm_m / (2 * Math.PI * Math.PI * bundle_m * bundle_m),
    field_ohm_m: all_ohm_m,
    gradient_ohm: 0,
    real_m2: strands * response.dipoleReal * square_m2,
    imaginary_m2: strands * response.dipoleImaginary * square_m2,
  }
}

export type RowLossResult =
  | {
      readonly ok: true
      /** Per row a matrix of windings: loss is ½ Σ R Re(Ii* Ij); index (row · windings + i) · windings + j. */
      readonly loss_ohm: Float64Array
      /** The part of it that fields cause, without each conductor's own current. */
      readonly fieldLoss_ohm: Float64Array
    }
  | { readonly ok: false; readonly message: string }

/** Loss matrices of every row of one section at one frequency. Foil and wire answer each other one way: foil first. */
export const sectionLossAt = (
  prepared: SectionLoss,
  frequency_Hz: number,
  resistivity_ohm_m: number,
): RowLossResult => {
  const { section, points, coupling, foils, foilRows } = prepared
  const { model, conductors, length_m } = section
  const windings = model.turns.length
  const fieldLoss_ohm = new Float64Array(model.rows.length * windings * windings)
  let given = prepared.static_A_per_m
  let givenImaginary: Float64Array | null = null
  if (foils) {
    const solved = solveFoils(
      foils,
      frequency_Hz,
      resistivity_ohm_m,
      foilRows.map((row) => length_m[row]!),
    )
    if (!solved)
      return {
        ok: false,
        message: `foil currents at ${frequency_Hz} Hz have no solution: equations are singular`,
      }
    foilRows.forEach((row, f) => {
      for (let c = 0; c < windings * windings; c++)
        fieldLoss_ohm[row * windings * windings + c] = solved.loss_ohm[f * windings * windings + c]!
    })
    const part = (axial_T: Float64Array, radial_T: Float64Array): Float64Array =>
      fieldAtPoints({ ...prepared.field, axial_T, radial_T }, points)
    given = part(solved.axialReal, solved.radialReal)
    givenImaginary = part(solved.axialImaginary, solved.radialImaginary)
  }
  const answers = conductors.map((conductor) => wireAnswer(conductor, resistivity_ohm_m, frequency_Hz))
  const strength = {
    real: Float64Array.from({ length: points.count }, (_, p) => answers[points.row[p]!]!.real_m2),
    imaginary: Float64Array.from({ length: points.count }, (_, p) => answers[points.row[p]!]!.imaginary_m2),
  }
  const real: Float64Array[] = []
  const imaginary: Float64Array[] = []
  for (let w = 0; w < windings; w++) {
    const range = [w * points.count * 2, (w + 1) * points.count * 2] as const
    if (coupling) {
      const local = localField(
        coupling,
        strength,
        given.subarray(...range),
        givenImaginary?.subarray(...range) ?? null,
      )
      if (!local.ok) return { ok: false, message: `at ${frequency_Hz} Hz: ${local.message}` }
      real.push(local.real)
      imaginary.push(local.imaginary)
    } else {
      const local = rowField(
        Float64Array.from({ length: points.count }, (_, p) => rowPitch_m(section, points.row[p]!)),
        strength,
        given.subarray(...range),
        givenImaginary?.subarray(...range) ?? null,
      )
      real.push(local.real)
      imaginary.push(local.imaginary)
    }
  }
  const gradient = (w: number, p: number, part = 0): number =>
    prepared.gradient_T_per_m[(w * points.count + p) * 2 + part]!
  for (let p = 0; p < points.count; p++) {
    const row = points.row[p]!
    const weight = answers[row]!.field_ohm_m * length_m[row]!
    const uneven = answers[row]!.gradient_ohm * length_m[row]!
    for (let i = 0; i < windings; i++)
      for (let j = 0; j < windings; j++)
        fieldLoss_ohm[(row * windings + i) * windings + j]! +=
          weight *
            (real[i]![2 * p]! * real[j]![2 * p]! +
              imaginary[i]![2 * p]! * imaginary[j]![2 * p]! +
              real[i]![2 * p + 1]! * real[j]![2 * p + 1]! +
              imaginary[i]![2 * p + 1]! * imaginary[j]![2 * p + 1]!) +
          uneven * (gradient(i, p) * gradient(j, p) + gradient(i, p, 1) * gradient(j, p, 1))
  }
  const loss_ohm = fieldLoss_ohm.slice()
  addOwnLoss(section, answers, loss_ohm)
  return { ok: true, loss_ohm, fieldLoss_ohm }
}

/** Mean distance from one conductor to the next along a row; a lone one has none near. */
const rowPitch_m = (section: SectionModel, row: number): number => {
  const { z_m } = section.model.rows[row]!
  const last = z_m.length - 1
  return last > 0 ? (z_m[last]! - z_m[0]!) / last : section.model.slot.height_m
}

/** Add what each conductor loses by its own current alone (foil: already in its strips). */
const addOwnLoss = (section: SectionModel, answers: readonly WireAnswer[], loss_ohm: Float64Array): void => {
  const windings = section.model.turns.length
  section.model.rows.forEach((row, r) => {
    loss_ohm[(r * windings + row.winding) * windings + row.winding]! +=
      answers[r]!.own_ohm_per_m * section.length_m[r]! * row.z_m.length * row.current ** 2
  })
}

/** Own loss alone, as rows of matrices. */
export const ownLossAt = (
  section: SectionModel,
  frequency_Hz: number,
  resistivity_ohm_m: number,
): Float64Array => {
  const windings = section.model.turns.length
  const loss_ohm = new Float64Array(section.model.rows.length * windings * windings)
  addOwnLoss(
    section,
    section.conductors.map((conductor) => wireAnswer(conductor, resistivity_ohm_m, frequency_Hz)),
    loss_ohm,
  )
  return loss_ohm
}
