// Values of IEC 60664-1 and IEC 62368-1, with where each was taken from. "Seen": read in a text. "Memory": remembered, to
// be checked against the edition in force before anything depends on it.

/** Rated impulse voltage by nominal line-to-neutral voltage and overvoltage category, V peak (IEC 60664-1, memory). */
export const impulse_V: Readonly<Record<'II' | 'III', readonly (readonly [number, number])[]>> = {
  II: [
    [50, 500],
    [100, 800],
    [150, 1500],
    [300, 2500],
    [600, 4000],
  ],
  III: [
    [50, 800],
    [100, 1500],
    [150, 2500],
    [300, 4000],
    [600, 6000],
  ],
}

/**
 * Clearance in inhomogeneous field for an impulse withstand, up to 2000 m: V peak, mm, before the least value of the
 * pollution degree (IEC 60664-1 table F.2, case A; memory, but the 2500 V row of 1.5 mm basic and 3.0 mm reinforced is
 * seen in a test report to IEC 62368-1 cl. 5.4.2.3).
 */
export const impulseClearance_mm: readonly (readonly [number, number])[] = [
  [330, 0.01],
  [400, 0.02],
  [500, 0.04],
  [600, 0.06],
  [800, 0.1],
  [1000, 0.15],
  [1200, 0.25],
  [1500, 0.5],
  [2000, 1.0],
  [2500, 1.5],
  [3000, 2.0],
  [4000, 3.0],
  [5000, 4.0],
  [6000, 5.5],
  [8000, 8.0],
  [10000, 11.0],
  [12000, 14.0],
]

/** Least clearance by pollution degree, mm (IEC 60664-1, memory). */
export const leastClearance_mm: Readonly<Record<1 | 2 | 3, number>> = { 1: 0, 2: 0.2, 3: 0.8 }

/**
 * Clearance for a steady or recurring peak voltage, inhomogeneous field: V peak, mm (IEC 60664-1 table F.7, case A;
 * memory).
 */
export const peakClearance_mm: readonly (readonly [number, number])[] = [
  [40, 0.001],
  [60, 0.002],
  [100, 0.003],
  [120, 0.004],
  [150, 0.005],
  [200, 0.006],
  [250, 0.008],
  [330, 0.01],
  [400, 0.02],
  [500, 0.04],
  [600, 0.06],
  [800, 0.13],
  [1000, 0.26],
  [1200, 0.42],
  [1500, 0.76],
  [2000, 1.27],
  [2500, 1.8],
  [3000, 2.4],
  [4000, 3.8],
]

/** Altitude factors for clearance above 2000 m: m, factor (IEC 60664-1 table A.2, memory). */
export const altitudeFactor: readonly (readonly [number, number])[] = [
  [2000, 1.0],
  [3000, 1.14],
  [4000, 1.29],
  [5000, 1.48],
]

export type MaterialGroup = 'I' | 'II' | 'III'

/** Working voltages of the creepage table, V rms. */
export const creepageVoltage_Vrms = [
  50, 63, 80, 100, 125, 160, 200, 250, 320, 400, 500, 630, 800, 1000,
] as const

/**
 * Basic creepage, mm, by pollution degree and material group (IEC 60664-1 table F.5; memory; pollution degree 2, group
 * III from 200 V agrees with the checked list). Pollution degree 1 does not depend on the group.
 */
export const creepage_mm: Readonly<Record<1, readonly number[]>> &
  Readonly<Record<2 | 3, Readonly<Record<MaterialGroup, readonly number[]>>>> = {
  1: [0.18, 0.2, 0.22, 0.25, 0.28, 0.32, 0.42, 0.56, 0.75, 1.0, 1.3, 1.8, 2.4, 3.2],
  2: {
    I: [0.6, 0.63, 0.67, 0.71, 0.75, 0.8, 1.0, 1.25, 1.6, 2.0, 2.5, 3.2, 4.0, 5.0],
    II: [0.85, 0.9, 0.95, 1.0, 1.05, 1.1, 1.4, 1.8, 2.2, 2.8, 3.6, 4.5, 5.6, 7.1],
    III: [1.2, 1.25, 1.3, 1.4, 1.5, 1.6, 2.0, 2.5, 3.2, 4.0, 5.0, 6.3, 8.0, 10.0],
  },
  3: {
    I: [1.5, 1.6, 1.7, 1.8, 1.9, 2.0, 2.5, 3.2, 4.0, 5.0, 6.3, 8.0, 10.0, 12.5],
    II: [1.7, 1.8, 1.9, 2.0, 2.1, 2.2, 2.8, 3.6, 4.5, 5.6, 7.1, 9.0, 11.0, 14.0],
    III: [1.9, 2.0, 2.1, 2.2, 2.4, 2.5, 3.2, 4.0, 5.0, 6.3, 8.0, 10.0, 12.5, 16.0],
  },
}

/** Electric strength test by mains transient: basic and reinforced, V peak (IEC 62368-1; 2500 V row listed, rest memory). */
export const strengthTest_V: readonly (readonly [number, number, number])[] = [
  [1500, 1500, 2500],
  [2500, 2500, 4000],
  [4000, 4000, 6000],
  [6000, 6000, 8000],
]

/** Least thickness of a single solid layer of supplementary or reinforced insulation, m (IEC 62368-1 cl. 5.4.4.2). */
export const solidLayer_m = 0.4e-3

/** What every page and paper that uses this room says beside its figures. */
export const guideNote = 'guide; check the current local code'
