import type { Core, Former } from '../part.ts'
import { starterCores } from './cores.ts'
import { mm, rounded, slug } from './units.ts'

/**
 * Formers for the starter cores, typical of the trade, no source. Width, height and barrel follow from the core's
 * window by what a moulding takes away: a flange at each end with 0.15 mm of play, a wall round the post with
 * 0.15 mm of play, and 0.45 mm left free at the outer leg. (For ETD34 this gives 21 mm by 6.1 mm, against 21 mm by
 * 6.0 mm printed in a handbook; for E25/13/7 15.7 mm by 3.9 mm.)
 * Columns: size, wall mm, flange mm, pins in row one, pins in row two, distance of the rows mm.
 */
type Row = readonly [
  size: string,
  wall: number,
  flange: number,
  rowOne: number,
  rowTwo: number,
  distance: number,
]

const table: readonly Row[] = [
  ['EF12.6', 0.6, 0.7, 4, 4, 10.2],
  ['E16/8/5', 0.7, 0.8, 4, 4, 12.5],
  ['E19/8/5', 0.7, 0.8, 4, 4, 15],
  ['E20/10/6', 0.8, 0.9, 5, 5, 15],
  ['E25/13/7', 0.85, 0.95, 5, 5, 20],
  ['E30/15/7', 0.9, 1, 6, 6, 25],
  ['E32/16/9', 1, 1.2, 6, 6, 25],
  ['E34/14/9', 1, 1.1, 6, 6, 27.5],
  ['E36/18/11', 1, 1.2, 6, 6, 27.5],
  ['E42/21/15', 1.2, 1.4, 7, 7, 35],
  ['E42/21/20', 1.2, 1.4, 7, 7, 35],
  ['E55/28/21', 1.5, 1.6, 7, 7, 45],
  ['EE16', 0.7, 0.75, 5, 5, 12.5],
  ['EE22', 0.75, 0.8, 4, 4, 15],
  ['EE25', 0.85, 0.9, 5, 5, 20],
  ['EE30', 0.9, 1, 6, 6, 25],
  ['EE40', 1, 1.2, 6, 6, 32.5],
  ['EE50', 1.3, 1.5, 7, 7, 40],
  ['EI12.5', 0.5, 0.5, 4, 4, 10],
  ['EI16', 0.7, 0.75, 5, 5, 12.5],
  ['EI19', 0.7, 0.8, 4, 4, 15],
  ['EI25', 0.85, 0.9, 5, 5, 20],
  ['EI28', 0.9, 1, 5, 5, 22.5],
  ['EI30', 0.9, 1, 6, 6, 25],
  ['EI33', 1, 1.1, 6, 6, 25],
  ['EI40', 1.1, 1.2, 6, 6, 32.5],
  ['EER25.5', 0.8, 0.9, 5, 5, 20],
  ['EER28', 0.9, 1, 6, 6, 22.5],
  ['EER28L', 0.9, 1, 6, 6, 22.5],
  ['EER35', 1, 1.2, 7, 7, 30],
  ['EER40', 1.1, 1.3, 8, 8, 32.5],
  ['ETD29/16/10', 0.95, 1.15, 7, 6, 25.4],
  ['ETD34/17/11', 1, 1.35, 7, 7, 25.4],
  ['ETD39/20/13', 1.1, 1.4, 8, 8, 30.48],
  ['ETD44/22/15', 1.2, 1.5, 9, 9, 35.56],
  ['ETD49/25/16', 1.2, 1.6, 10, 10, 40.64],
  ['ETD54/28/19', 1.3, 1.7, 11, 11, 45.72],
  ['ER42/22/16', 1.1, 1.3, 8, 8, 35],
  ['ER54/18/18', 1.3, 1.4, 8, 8, 45],
  ['EFD15/8/5', 0.5, 0.7, 4, 4, 13.75],
  ['EFD20/10/7', 0.55, 0.75, 4, 4, 17.5],
  ['EFD25/13/9', 0.6, 0.85, 5, 5, 22.5],
  ['EFD30/15/9', 0.65, 0.95, 6, 6, 27.5],
  ['PQ20/16', 0.75, 0.85, 7, 7, 20],
  ['PQ20/20', 0.75, 0.85, 7, 7, 20],
  ['PQ26/20', 0.8, 0.9, 6, 6, 25.4],
  ['PQ26/25', 0.8, 0.9, 6, 6, 25.4],
  ['PQ32/20', 0.9, 1, 6, 6, 30.5],
  ['PQ32/30', 0.9, 1, 6, 6, 30.5],
  ['PQ35/35', 1, 1.1, 6, 6, 33],
  ['PQ40/40', 1.1, 1.2, 6, 6, 38],
  ['RM6', 0.6, 0.65, 3, 3, 10.16],
  ['RM8', 0.7, 0.75, 6, 6, 15.24],
  ['RM10', 0.8, 0.85, 6, 6, 20.32],
  ['RM12', 0.9, 1, 6, 6, 25.4],
  ['RM14', 1, 1.1, 6, 6, 30.48],
]

const play_m = mm(0.15)
const outerClearance_m = mm(0.45)
const roundPosts: readonly Core['shape'][] = ['EER', 'ETD', 'ER', 'PQ', 'RM']

const formerOf = ([size, wall, flange, rowOne, rowTwo, distance]: Row): Former => {
  const core = starterCores.find((c) => c.size === size)
  if (!core) throw new Error(`no starter core of size ${size} for its former`)
  const { C_m, D_m, E_m, F_m, F2_m } = core.dimensions
  const wall_m = mm(wall)
  const flange_m = mm(flange)
  const window_m = core.shape === 'EI' ? D_m : 2 * D_m
  const around_m = 2 * (wall_m + play_m)
  return {
    id: `former-${slug(size)}`,
    kind: 'former',
    name: `${size} former, ${rowOne + rowTwo} pins`,
    source: 'typical of the trade, no source',
    fits: [size],
    width_m: rounded(window_m - 2 * (flange_m + play_m), 4),
    height_m: rounded((E_m - F_m) / 2 - wall_m - play_m - outerClearance_m, 4),
    barrel: roundPosts.includes(core.shape)
      ? { section: 'round', diameter_m: rounded(F_m + around_m, 4) }
      : {
          section: 'rectangular',
          width_m: rounded(F_m + around_m, 4),
          depth_m: rounded((F2_m ?? C_m) + around_m, 4),
        },
    wall_m,
    flange_m,
    rowOne,
    rowTwo,
    rowDistance_m: mm(distance),
    temperature_C: 130,
  }
}

export const starterFormers: readonly Former[] = table.map(formerOf)
