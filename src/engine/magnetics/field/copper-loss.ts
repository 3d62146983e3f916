import type { ResistanceMatrix } from '../stack/index.ts'
import type { Harmonics } from './waveform-harmonics.ts'

export interface CopperLoss {
  readonly total_W: number
  /** Loss of the average currents. */
  readonly dc_W: number
  /** Loss of each harmonic. */
  readonly harmonics_W: Float64Array
}

/**
 * Copper loss of true current waveforms: P = Σ R_dc I² + ½ Σ_n Σ_ij R_ij(nf) Re(I_i* I_j). `matrices[n − 1]` belongs to
 * harmonic n; currents are in the order of the matrices' windings, positive into starts. Harmonics beyond the last
 * matrix are not counted.
 */
export const copperLoss = (
  dcResistance_ohm: readonly number[],
  matrices: readonly ResistanceMatrix[],
  currents: readonly Harmonics[],
): CopperLoss => {
  let dc_W = 0
  currents.forEach((current, w) => {
    dc_W += dcResistance_ohm[w]! * current.average ** 2
  })
  const harmonics_W = new Float64Array(matrices.length)
  let total_W = dc_W
  matrices.forEach((matrix, n) => {
    harmonics_W[n] = harmonicLoss_W(matrix.resistance_ohm, currents, n)
    total_W += harmonics_W[n]!
  })
  return { total_W, dc_W, harmonics_W }
}

/** Loss of one harmonic in any loss matrix, of a winding stack or of one of its layers. */
export const harmonicLoss_W = (
  resistance_ohm: Float64Array,
  currents: readonly Harmonics[],
  index: number,
): number => {
  const count = currents.length
  let sum = 0
  for (let i = 0; i < count; i++)
    for (let j = 0; j < count; j++)
      sum +=
        resistance_ohm[i * count + j]! *
        ((currents[i]!.real[index] ?? 0) * (currents[j]!.real[index] ?? 0) +
          (currents[i]!.imaginary[index] ?? 0) * (currents[j]!.imaginary[index] ?? 0))
  return sum / 2
}
