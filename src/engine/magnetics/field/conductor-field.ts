import { vacuumPermeability_H_per_m } from '../wire/index.ts'
import type { StackField } from './stack-field.ts'

/** Static flux density at one conductor inside the core. */
export interface ConductorField {
  /** Index into the layout's layers. */
  readonly layer: number
  /** Place above the barrel and along the post from mid-height. */
  readonly x_m: number
  readonly z_m: number
  readonly axial_T: number
  readonly radial_T: number
}

/** Field that given winding currents make at every round conductor, in the order of the layers; foils are left out. */
export const conductorFields = (field: StackField, currents_A: readonly number[]): ConductorField[] => {
  const { section, points, static_A_per_m } = field.sections[0]!
  return Array.from({ length: points.count }, (_, p) => {
    let axial = 0
    let radial = 0
    currents_A.forEach((current, w) => {
      axial += current * static_A_per_m[(w * points.count + p) * 2]!
      radial += current * static_A_per_m[(w * points.count + p) * 2 + 1]!
    })
    return {
      layer: section.layer[points.row[p]!]!,
      x_m: points.r_m[p]! - field.layout.barrelRadius_m,
      z_m: points.z_m[p]!,
      axial_T: axial * vacuumPermeability_H_per_m,
      radial_T: radial * vacuumPermeability_H_per_m,
    }
  })
}
