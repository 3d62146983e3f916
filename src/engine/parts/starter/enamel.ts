/**
 * Greatest overall diameter of enamelled round copper wire, IEC 60317-0-1 table 1, in millimetres:
 * bare (R20 preferred number), grade 1, grade 2. From memory.
 */
const table: readonly (readonly [bare: number, grade1: number, grade2: number])[] = [
  [0.02, 0.024, 0.027],
  [0.025, 0.031, 0.034],
  [0.032, 0.039, 0.043],
  [0.036, 0.044, 0.049],
  [0.04, 0.049, 0.054],
  [0.045, 0.055, 0.061],
  [0.05, 0.06, 0.066],
  [0.056, 0.067, 0.074],
  [0.063, 0.076, 0.083],
  [0.071, 0.084, 0.091],
  [0.08, 0.094, 0.101],
  [0.09, 0.105, 0.113],
  [0.1, 0.117, 0.125],
  [0.112, 0.13, 0.139],
  [0.125, 0.144, 0.154],
  [0.14, 0.16, 0.171],
  [0.16, 0.182, 0.194],
  [0.18, 0.204, 0.217],
  [0.2, 0.226, 0.239],
  [0.224, 0.252, 0.266],
  [0.25, 0.281, 0.297],
  [0.28, 0.312, 0.329],
  [0.315, 0.349, 0.367],
  [0.355, 0.392, 0.411],
  [0.4, 0.439, 0.459],
  [0.45, 0.491, 0.513],
  [0.5, 0.544, 0.566],
  [0.56, 0.606, 0.63],
  [0.63, 0.679, 0.704],
  [0.71, 0.762, 0.789],
  [0.8, 0.855, 0.884],
  [0.9, 0.959, 0.989],
  [1, 1.062, 1.094],
  [1.12, 1.184, 1.217],
  [1.25, 1.316, 1.349],
  [1.4, 1.468, 1.502],
  [1.6, 1.67, 1.706],
  [1.8, 1.872, 1.909],
  [2, 2.074, 2.112],
  [2.24, 2.316, 2.355],
  [2.5, 2.578, 2.618],
]

/** R20 preferred bare diameters of the table, in millimetres, rising. */
export const preferredR20_mm: readonly number[] = table.map(([bare]) => bare)

/** Diameters of R40 that lie between those of R20, in millimetres, as the standard lists them from 0.053 to 1.9. */
export const preferredR40Between_mm: readonly number[] = [
  0.053, 0.06, 0.067, 0.075, 0.085, 0.095, 0.106, 0.118, 0.132, 0.15, 0.17, 0.19, 0.212, 0.236, 0.265, 0.3,
  0.335, 0.375, 0.425, 0.475, 0.53, 0.6, 0.67, 0.75, 0.85, 0.95, 1.06, 1.18, 1.32, 1.5, 1.7, 1.9,
]

/**
 * Greatest overall diameter of enamelled round wire, in metres, for a bare diameter of 0.02 to 2.5 mm.
 * A diameter between two rows takes the increase of the next larger row (the rule of IEC 60317-0-1 for intermediate
 * diameters), which holds for AWG and SWG sizes too.
 * Throws a RangeError outside the table.
 */
export function enamelledOverall_m(bare_m: number, grade: 1 | 2): number {
  const bare_mm = bare_m * 1e3
  const row = table.find(([nominal]) => nominal >= bare_mm - 1e-9)
  if (!row || bare_mm < 0.02 - 1e-9)
    throw new RangeError(`bare diameter is ${bare_mm} mm, outside 0.02 to 2.5 mm of the enamel table`)
  const increase_mm = row[grade] - row[0]
  return Number((bare_mm + increase_mm).toFixed(4)) / 1e3
}
