import type { Core } from '../part.ts'
import { mm, mm2, mm3, slug } from './units.ts'

/**
 * Core sets of the standard shapes. Dimensions are mid-tolerance (a printed "7.5 -0.5" is 7.25), in millimetres;
 * effective parameters are those printed by handbooks of the trade for the ungapped pair.
 * Columns: size, A, B, C, D, E, F, [F2 of EFD or G of PQ and RM], Ae mm2, le mm, Ve mm3, [least area mm2].
 * For EI the letters are those of the E part, but B - D is the mean of its back and of the plate, because the two
 * share the flux in series and the catalogue gives them different thicknesses.
 */
type Row = readonly [
  size: string,
  A: number,
  B: number,
  C: number,
  D: number,
  E: number,
  F: number,
  extra: number | null,
  Ae: number,
  le: number,
  Ve: number,
  least?: number,
]

const memory = 'from memory: ferrite handbooks of the trade'
const catalogue = 'dimensions: a ferrite catalogue of April 2011; effective parameters from memory'
const seen: Record<string, string> = {
  'ETD29/16/10': 'data sheet of 2008 for ETD29/16/10 (Ae, le, Ve, least area, dimensions)',
  'EFD20/10/7': 'data sheet of 2008 for EFD20/10/7 (Ae, post, window); le and Ve from memory',
  RM8: 'data sheet of 2008 for RM8/I (Ae, le, Ve, least area, dimensions)',
  'EI12.5': 'JIS FEI 12.5 in ferrite catalogues of 2003 and 2011',
  EI16: catalogue,
  EI19: catalogue,
  EI25: catalogue,
  EI28: catalogue,
  EI30: catalogue,
  EI33: catalogue,
}

const table: Record<Core['shape'], readonly Row[]> = {
  EF: [
    ['EF12.6', 12.65, 6.4, 3.55, 4.65, 9.2, 3.55, null, 12.4, 29.7, 369, 12.2],
    ['E16/8/5', 16.1, 8.05, 4.5, 5.9, 11.6, 4.55, null, 20.1, 37.6, 750, 19.3],
    ['E20/10/6', 20.1, 10, 5.65, 7.2, 14.5, 5.7, null, 32.1, 46.3, 1490, 31.9],
    ['E25/13/7', 25.05, 12.55, 7.2, 8.95, 18, 7.25, null, 52, 57.5, 2990, 51.5],
    ['E32/16/9', 32.1, 16.15, 9.1, 11.5, 23.3, 9.2, null, 83, 74, 6180, 81.4],
  ],
  E: [
    ['E19/8/5', 19.1, 8.1, 4.75, 5.7, 14.3, 4.75, null, 22.6, 39.9, 900, 22.1],
    ['E30/15/7', 30.05, 15, 7.05, 10, 20, 6.95, null, 60, 67, 4000, 49],
    ['E34/14/9', 34.3, 14.1, 9.3, 9.8, 25.5, 9.3, null, 80.7, 69.3, 5590],
    ['E36/18/11', 36.15, 17.8, 11.2, 12.3, 25.1, 9.95, null, 120, 81, 9720],
    ['E42/21/15', 42.15, 21, 14.9, 15.15, 30.1, 11.95, null, 178, 97, 17300, 175],
    ['E42/21/20', 42.15, 21, 19.6, 15.15, 30.1, 11.95, null, 234, 97, 22700, 229],
    ['E55/28/21', 55.15, 27.5, 20.7, 18.8, 38.1, 16.95, null, 354, 124, 43900, 351],
  ],
  EE: [
    ['EE16', 16, 7.15, 4.8, 5.1, 11.9, 4, null, 19, 34.5, 656],
    ['EE22', 22, 9.35, 5.75, 5.65, 13, 5.75, null, 41, 39.6, 1620],
    ['EE25', 25.4, 9.65, 6.35, 6.5, 18.8, 6.35, null, 39.5, 49, 1930],
    ['EE30', 30, 13.15, 10.7, 8.15, 19.7, 10.7, null, 109, 57.7, 6290],
    ['EE40', 40, 17, 10.7, 10.25, 27.5, 10.7, null, 127, 77, 9810],
    ['EE50', 50, 21.3, 14.6, 12.75, 34.6, 14.6, null, 226, 95.8, 21600],
  ],
  EI: [
    ['EI12.5', 12.4, 7, 4.85, 5.1, 9.2, 2.4, null, 14.4, 21.3, 308, 10.8],
    ['EI16', 16, 12.2, 4.8, 10.2, 11.9, 4, null, 19.8, 34.6, 685],
    ['EI19', 20, 13.5, 5, 11.15, 14.5, 4.55, null, 24, 39.6, 950],
    ['EI25', 25.3, 15.3, 6.75, 12.35, 19.3, 6.5, null, 41, 47, 1920],
    ['EI28', 28.1, 16.25, 10.6, 12.25, 19.1, 7.2, null, 86, 48.2, 4150],
    ['EI30', 30.15, 21.5, 10.7, 16.25, 20.15, 10.7, null, 111, 58, 6440],
    ['EI33', 33.15, 24, 12.7, 19.25, 24.25, 9.7, null, 119, 67.5, 8030],
    ['EI40', 40, 27.25, 11.65, 20.25, 27.2, 11.65, null, 148, 77, 11400],
  ],
  EER: [
    ['EER25.5', 25.5, 9.3, 7.5, 6.2, 19.8, 7.5, null, 44.8, 48.2, 2160],
    ['EER28', 28.55, 14, 11.4, 9.65, 21.75, 9.9, null, 82.1, 64, 5250],
    ['EER28L', 28.55, 16.9, 11.4, 12.53, 21.75, 9.9, null, 81.4, 75.5, 6150],
    ['EER35', 35, 20.7, 11.3, 14.7, 26.15, 11.3, null, 107, 90.8, 9720],
    ['EER40', 40, 22.4, 13.3, 15.45, 29.6, 13.3, null, 149, 98, 14600],
  ],
  ETD: [
    ['ETD29/16/10', 29.8, 15.8, 9.5, 11, 22.7, 9.5, null, 76, 72, 5470, 71],
    ['ETD34/17/11', 34.2, 17.3, 10.8, 12.1, 26.3, 10.8, null, 97.1, 78.6, 7640, 91.6],
    ['ETD39/20/13', 39.1, 19.8, 12.5, 14.6, 30.1, 12.5, null, 125, 92.2, 11500, 123],
    ['ETD44/22/15', 44, 22.3, 14.9, 16.5, 33.3, 14.9, null, 173, 103, 17800, 172],
    ['ETD49/25/16', 48.7, 24.7, 16.4, 18.1, 37, 16.4, null, 211, 114, 24000, 209],
    ['ETD54/28/19', 54.5, 27.6, 18.9, 20.2, 41.2, 18.9, null, 280, 127, 35500, 280],
  ],
  ER: [
    ['ER42/22/16', 42, 22.4, 15.6, 15.6, 30.05, 15.5, null, 194, 98.8, 19200],
    ['ER54/18/18', 53.5, 18.3, 17.95, 11.1, 40.65, 17.9, null, 250, 91.8, 23000],
  ],
  EFD: [
    ['EFD15/8/5', 15, 7.5, 4.65, 5.5, 11, 5.3, 2.4, 15, 34, 510],
    ['EFD20/10/7', 20, 10, 6.65, 7.7, 15.4, 8.9, 3.6, 31, 47, 1460],
    ['EFD25/13/9', 25, 12.5, 9.1, 9.3, 18.7, 11.4, 5.2, 58, 57, 3300],
    ['EFD30/15/9', 30, 15, 9.1, 11.2, 22.4, 14.6, 4.9, 69, 68, 4700],
  ],
  PQ: [
    ['PQ20/16', 20.5, 8.1, 14, 5.15, 18, 8.8, 12, 62, 37.4, 2320],
    ['PQ20/20', 20.5, 10.1, 14, 7.15, 18, 8.8, 12, 62, 45.4, 2810],
    ['PQ26/20', 26.5, 10.1, 19, 5.75, 22.5, 12, 15.5, 119, 46.3, 5510],
    ['PQ26/25', 26.5, 12.4, 19, 8.05, 22.5, 12, 15.5, 118, 55.5, 6550],
    ['PQ32/20', 32, 10.3, 22, 5.75, 27.5, 13.45, 19, 170, 55.5, 9440],
    ['PQ32/30', 32, 15.2, 22, 10.65, 27.5, 13.45, 19, 161, 74.6, 12000],
    ['PQ35/35', 35.1, 17.4, 26, 12.5, 32, 14.35, 23.5, 196, 87.9, 17200],
    ['PQ40/40', 40.5, 19.9, 28, 14.75, 37, 14.9, 28, 201, 102, 20500],
  ],
  RM: [
    ['RM6', 17.55, 6.2, 8, 4.1, 12.65, 6.3, 8.4, 37, 29.2, 1090],
    ['RM8', 22.75, 8.2, 10.75, 5.5, 17.3, 8.4, 9.5, 63, 38.4, 2440, 55.4],
    ['RM10', 27.85, 9.3, 13.25, 6.35, 21.65, 10.7, 10.9, 96.6, 44.6, 4310],
    ['RM12', 36.75, 12.25, 15.85, 8.55, 25.5, 12.6, 12.9, 146, 56.6, 8340],
    ['RM14', 41.5, 15.05, 18.7, 10.55, 29.6, 14.7, 17, 198, 70, 13900],
  ],
}

const coreOf = (shape: Core['shape'], row: Row): Core => {
  const [size, A, B, C, D, E, F, extra, Ae, le, Ve, least] = row
  const source = seen[size] ?? memory
  return {
    id: `core-${slug(size)}`,
    kind: 'core',
    name: `${size} core set`,
    shape,
    size,
    source,
    dimensions: {
      A_m: mm(A),
      B_m: mm(B),
      C_m: mm(C),
      D_m: mm(D),
      E_m: mm(E),
      F_m: mm(F),
      ...(extra === null ? {} : shape === 'EFD' ? { F2_m: mm(extra) } : { G_m: mm(extra) }),
    },
    published: {
      effectiveArea_m2: mm2(Ae),
      effectiveLength_m: mm(le),
      effectiveVolume_m3: mm3(Ve),
      ...(least === undefined ? {} : { minimumArea_m2: mm2(least) }),
      source,
    },
  }
}

export const starterCores: readonly Core[] = (Object.keys(table) as Core['shape'][]).flatMap((shape) =>
  table[shape].map((row) => coreOf(shape, row)),
)
