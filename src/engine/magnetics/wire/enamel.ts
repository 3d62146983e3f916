/**
 * Greatest overall diameter of enamelled round copper: nominal bare diameter, then grades 1, 2 and 3, in
 * micrometres. Source: IEC 60317-0-1, table of the R20 series, from memory; grade 3 below 0.1 mm is not made and is
 * continued from grades 1 and 2.
 */
const table: readonly (readonly [number, number, number, number])[] = [
  [20, 24, 27, 30],
  [25, 31, 34, 37],
  [32, 39, 43, 47],
  [40, 49, 54, 58],
  [50, 60, 66, 72],
  [63, 76, 83, 90],
  [71, 84, 91, 98],
  [80, 94, 101, 108],
  [90, 105, 113, 120],
  [100, 117, 125, 132],
  [112, 130, 139, 147],
  [125, 144, 154, 163],
  [140, 160, 171, 181],
  [160, 182, 194, 205],
  [180, 204, 217, 229],
  [200, 226, 239, 252],
  [224, 252, 266, 280],
  [250, 281, 297, 312],
  [280, 312, 329, 345],
  [315, 349, 367, 384],
  [355, 392, 411, 428],
  [400, 439, 459, 478],
  [450, 491, 513, 533],
  [500, 544, 566, 587],
  [560, 606, 630, 653],
  [630, 679, 704, 728],
  [710, 762, 789, 814],
  [800, 855, 884, 911],
  [900, 959, 989, 1018],
  [1000, 1062, 1094, 1124],
  [1120, 1184, 1217, 1248],
  [1250, 1316, 1349, 1381],
  [1400, 1468, 1502, 1535],
  [1600, 1670, 1706, 1740],
  [1800, 1872, 1909, 1944],
  [2000, 2074, 2112, 2148],
  [2240, 2316, 2355, 2392],
  [2500, 2578, 2618, 2656],
  [2800, 2880, 2922, 2961],
  [3150, 3233, 3276, 3316],
  [3550, 3635, 3679, 3721],
  [4000, 4088, 4133, 4176],
  [4500, 4591, 4637, 4681],
  [5000, 5093, 5141, 5186],
]

/**
 * Greatest overall diameter (m) of an enamelled wire. A tabled size gives the table's value; between sizes the
 * increase is interpolated along the logarithm of the diameter; beyond the ends it is scaled with the square root.
 */
export const enamelledOverall_m = (bare_m: number, grade: 1 | 2 | 3): number => {
  const bare_um = bare_m * 1e6
  const first = table[0]!
  const last = table[table.length - 1]!
  const increase = (row: readonly [number, number, number, number]): number => row[grade] - row[0]
  if (bare_um <= first[0]) return bare_m + increase(first) * 1e-6 * Math.sqrt(bare_um / first[0])
  if (bare_um >= last[0]) return bare_m + increase(last) * 1e-6 * Math.sqrt(bare_um / last[0])
  let above = 1
  while (table[above]![0] < bare_um) above++
  const low = table[above - 1]!
  const high = table[above]!
  const along = Math.log(bare_um / low[0]) / Math.log(high[0] / low[0])
  return bare_m + (increase(low) + along * (increase(high) - increase(low))) * 1e-6
}
