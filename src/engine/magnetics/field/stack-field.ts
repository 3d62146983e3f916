import type { ResistanceMatrix, StackLayout } from '../stack/index.ts'
import {
  copperResistivity_ohm_m,
  dcResistance_ohm_per_m,
  roundWireResponse,
  skinDepth_m,
} from '../wire/index.ts'
import { ownLossAt, prepareSection, type SectionLoss, sectionLossAt } from './section-loss.ts'
import { sectionModels } from './section-model.ts'
import type { WallGap } from './types.ts'

/** Field of a wound core: one solution for each of its sections. */
export interface StackField {
  readonly layout: StackLayout
  readonly sections: readonly SectionLoss[]
}

/** Solve the field of a winding stack, with gaps and the share of net ampere-turns that drops across each. */
export const stackField = (layout: StackLayout, gaps: readonly WallGap[]): StackField => ({
  layout,
  sections: sectionModels(layout, gaps).map(prepareSection),
})

/**
 * Energy matrix of the window (H), row by row in the order of `layout.windings`: the field of each pair of windings
 * outside the core and the gap's interior, the net ampere-turns closed at the gaps. Symmetric, positive definite.
 */
export const windowInductance_H = (field: StackField): Float64Array => {
  const count = field.layout.windings.length
  const sum = new Float64Array(count * count)
  for (const { section, field: solved } of field.sections)
    for (let i = 0; i < sum.length; i++) sum[i]! += section.part * solved.energy_H[i]!
  return sum
}

/**
 * Inductance matrix (H) of all windings: M_ij = N_i N_j P + W_ij, with W the energy matrix of the window and P what
 * is left of the permeance (inductance per turn squared) of the core with its gap. The first winding then has its
 * inductance N² · permeance. Undefined when the permeance is less than what the window alone holds.
 */
export const inductanceMatrix_H = (field: StackField, permeance_H: number): Float64Array | undefined => {
  const matrix = windowInductance_H(field)
  const turns = field.sections[0]!.section.model.turns
  const rest_H = permeance_H - matrix[0]! / turns[0]! ** 2
  if (!(rest_H > 0)) return undefined
  const count = turns.length
  for (let i = 0; i < count; i++)
    for (let j = 0; j < count; j++) matrix[i * count + j]! += turns[i]! * turns[j]! * rest_H
  return matrix
}

/**
 * Leakage inductance (H) seen at one winding with another one short-circuited and the rest open, from the energy of
 * equal and opposite ampere-turns. Undefined when the stack lacks one of them.
 */
export const leakage_H = (field: StackField, excited: string, shorted: string): number | undefined => {
  const { windings } = field.layout
  const [i, j] = [windings.indexOf(excited), windings.indexOf(shorted)]
  if (i < 0 || j < 0 || i === j) return undefined
  const w = windowInductance_H(field)
  const turns = field.sections[0]!.section.model.turns
  const ratio = turns[i]! / turns[j]!
  const count = windings.length
  return w[i * count + i]! - 2 * ratio * w[i * count + j]! + ratio * ratio * w[j * count + j]!
}

export type StackResistances =
  | {
      readonly ok: true
      readonly matrices: readonly ResistanceMatrix[]
      /** Loss matrix of each layer at each frequency: [frequency][layer], shields last as one. */
      readonly layers: readonly (readonly Float64Array[])[]
    }
  | { readonly ok: false; readonly message: string }

/** Frequencies at which fields are solved when more are asked for; between them their slow change is interpolated. */
const solvedFrequencies = 7

/**
 * Winding resistances at a list of frequencies and one copper temperature. A conductor's own effect is computed at each
 * frequency; the field loss over frequency, which changes slowly, is solved at no more than seven and interpolated
 * (polynomial in the logarithm, error below 0.5 %). Tails count with their own skin effect.
 */
export const stackResistances = (
  field: StackField,
  frequencies_Hz: readonly number[],
  temperature_C: number,
): StackResistances => {
  const { layout, sections } = field
  const resistivity_ohm_m = copperResistivity_ohm_m(temperature_C)
  const count = layout.windings.length
  const square = count * count
  const layers = frequencies_Hz.map(() =>
    Array.from({ length: layout.layers.length + 1 }, () => new Float64Array(square)),
  )
  const solveAt = chooseNodes(frequencies_Hz)
  for (const prepared of sections) {
    const { section } = prepared
    const nodes: Float64Array[] = []
    for (const frequency_Hz of solveAt) {
      const loss = sectionLossAt(prepared, frequency_Hz, resistivity_ohm_m)
      if (!loss.ok) return loss
      nodes.push(loss.fieldLoss_ohm.map((value) => value / frequency_Hz))
    }
    frequencies_Hz.forEach((frequency_Hz, f) => {
      const weights = lagrange(solveAt, frequency_Hz)
      const own = ownLossAt(section, frequency_Hz, resistivity_ohm_m)
      section.layer.forEach((layer, row) => {
        const target = layers[f]![layer < 0 ? layout.layers.length : layer]!
        for (let c = 0; c < square; c++) {
          let fields = 0
          for (let n = 0; n < solveAt.length; n++) fields += weights[n]! * nodes[n]![row * square + c]!
          target[c]! += section.part * (own[row * square + c]! + fields * frequency_Hz)
        }
      })
    })
  }
  const matrices = frequencies_Hz.map((frequency_Hz, f): ResistanceMatrix => {
    const resistance_ohm = new Float64Array(square)
    for (const layer of layers[f]!) for (let c = 0; c < square; c++) resistance_ohm[c]! += layer[c]!
    addTails(layout, frequency_Hz, temperature_C, resistance_ohm)
    return { frequency_Hz, windings: layout.windings, resistance_ohm, method: 'field' }
  })
  return { ok: true, matrices, layers }
}

const addTails = (
  layout: StackLayout,
  frequency_Hz: number,
  temperature_C: number,
  resistance_ohm: Float64Array,
): void => {
  const count = layout.windings.length
  const delta_m = skinDepth_m(frequency_Hz, copperResistivity_ohm_m(temperature_C))
  for (const section of layout.sections) {
    const w = layout.windings.indexOf(section.winding)
    const { wire, inHand } = layout.input.wires[section.winding]!
    const factor =
      wire.construction === 'foil' || wire.construction === 'litz'
        ? 1
        : roundWireResponse(wire.bare_m, delta_m).resistanceFactor
    resistance_ohm[w * count + w]! +=
      (2 * layout.input.tail_m * factor * dcResistance_ohm_per_m(wire, temperature_C)) / inHand
  }
}

/** All frequencies when few, else Chebyshev points of their logarithm. */
const chooseNodes = (frequencies_Hz: readonly number[]): number[] => {
  const different = [...new Set(frequencies_Hz)]
  if (different.length <= solvedFrequencies) return different
  const low = Math.log(Math.min(...different))
  const high = Math.log(Math.max(...different))
  return Array.from({ length: solvedFrequencies }, (_, i) =>
    Math.exp(
      (low + high) / 2 - ((high - low) / 2) * Math.cos(((2 * i + 1) * Math.PI) / (2 * solvedFrequencies)),
    ),
  )
}

/** Weights of the polynomial through the nodes, in the logarithm of frequency. */
const lagrange = (nodes_Hz: readonly number[], frequency_Hz: number): number[] =>
  nodes_Hz.map((node, i) =>
    nodes_Hz.reduce(
      (product, other, j) =>
        i === j ? product : (product * Math.log(frequency_Hz / other)) / Math.log(node / other),
      1,
    ),
  )
