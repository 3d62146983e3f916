import type { Core } from '../../parts/part.ts'
import { millimetres, type Problem } from './result.ts'

export type Dimensions = Core['dimensions']
export type Shape = Core['shape']

export const hasRoundPost = (shape: Shape) =>
  shape !== 'E' && shape !== 'EE' && shape !== 'EF' && shape !== 'EI' && shape !== 'EFD'

/**
 * What makes these dimensions impossible, each as a sentence that names the dimension, its value and its limit; an
 * empty list when a core of this shape can have them.
 */
export function dimensionProblems(shape: Shape, d: Dimensions): readonly Problem[] {
  const problems: Problem[] = []
  const bad = (name: keyof Dimensions, meaning: string, rule: string) =>
    problems.push({
      path: `dimensions.${name}`,
      message: `${meaning} is ${millimetres(d[name] ?? 0)}, but it must be ${rule}`,
    })
  for (const name of ['A_m', 'B_m', 'C_m', 'D_m', 'E_m', 'F_m'] as const)
    if (!(d[name] > 0)) bad(name, `dimension ${name[0]}`, 'above 0')
  if (problems.length > 0) return problems
  if (d.E_m >= d.A_m) bad('E_m', 'window width E', `below the overall width A of ${millimetres(d.A_m)}`)
  if (d.F_m >= d.E_m) bad('F_m', 'post width F', `below the window width E of ${millimetres(d.E_m)}`)
  if (d.D_m >= d.B_m) bad('D_m', 'window height D', `below the half height B of ${millimetres(d.B_m)}`)
  if (shape === 'EFD' && d.F2_m === undefined) bad('F2_m', 'post thickness F2', 'given for an EFD core')
  if (d.F2_m !== undefined && !(d.F2_m > 0 && d.F2_m <= d.C_m))
    bad('F2_m', 'post thickness F2', `above 0 and at most the depth C of ${millimetres(d.C_m)}`)
  if (d.G_m !== undefined && !(d.G_m > 0 && d.G_m < d.A_m))
    bad('G_m', 'opening G', `above 0 and below the overall width A of ${millimetres(d.A_m)}`)
  return problems
}
