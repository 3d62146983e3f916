import type { Diode } from '../part.ts'
import { nano, pico, rounded } from './units.ts'

const source = 'typical of the trade, no source'

/** Package: label, junction to case K/W (axial parts: to the lead), junction to ambient K/W. */
const packages = {
  signal: ['DO-35', 180, 300],
  axialSmall: ['DO-41', 35, 80],
  axialMedium: ['DO-15', 25, 65],
  axialLarge: ['DO-201', 15, 50],
  single: ['TO-220, two leads', 2.2, 62],
  dual: ['TO-220, three leads', 1.6, 60],
  dualLarge: ['TO-247', 0.9, 40],
} as const

type Package = keyof typeof packages

/**
 * Columns: reverse V, average A, surge A, drop at 100 °C extrapolated to no current V, drop at rated current V,
 * capacitance pF (at about a third of the rated voltage), package.
 */
type Row = readonly [
  reverse_V: number,
  average_A: number,
  surge_A: number,
  drop_V: number,
  ratedDrop_V: number,
  capacitance_pF: number,
  frame: Package,
]

const schottky: readonly Row[] = [
  [45, 3, 80, 0.3, 0.5, 150, 'axialLarge'],
  [45, 5, 150, 0.3, 0.5, 220, 'axialLarge'],
  [45, 8, 150, 0.32, 0.55, 280, 'single'],
  [45, 16, 150, 0.32, 0.57, 500, 'dual'],
  [45, 20, 180, 0.32, 0.57, 700, 'dual'],
  [45, 30, 220, 0.32, 0.57, 1000, 'dual'],
  [45, 40, 300, 0.32, 0.56, 1500, 'dualLarge'],
  [60, 3, 80, 0.36, 0.6, 120, 'axialLarge'],
  [60, 5, 150, 0.36, 0.6, 190, 'axialLarge'],
  [60, 10, 150, 0.38, 0.63, 300, 'dual'],
  [60, 20, 180, 0.38, 0.64, 550, 'dual'],
  [60, 30, 220, 0.38, 0.64, 850, 'dual'],
  [60, 40, 300, 0.38, 0.62, 1300, 'dualLarge'],
  [100, 1, 30, 0.44, 0.66, 45, 'axialSmall'],
  [100, 3, 80, 0.45, 0.68, 95, 'axialLarge'],
  [100, 5, 130, 0.45, 0.68, 140, 'axialLarge'],
  [100, 10, 150, 0.47, 0.7, 220, 'dual'],
  [100, 20, 180, 0.47, 0.71, 400, 'dual'],
  [100, 30, 250, 0.47, 0.71, 600, 'dual'],
  [100, 40, 300, 0.47, 0.7, 850, 'dualLarge'],
  [150, 3, 80, 0.52, 0.74, 65, 'axialLarge'],
  [150, 10, 130, 0.53, 0.76, 150, 'dual'],
  [150, 20, 180, 0.53, 0.77, 280, 'dual'],
  [150, 30, 250, 0.53, 0.77, 420, 'dual'],
  [200, 3, 80, 0.55, 0.78, 50, 'axialLarge'],
  [200, 10, 130, 0.56, 0.8, 120, 'dual'],
  [200, 20, 180, 0.56, 0.82, 230, 'dual'],
  [200, 30, 250, 0.56, 0.82, 340, 'dual'],
]

/** The extra last column is the recovery time in ns. */
type RecoveryRow = readonly [...Row, recovery_ns: number]

const ultrafast: readonly RecoveryRow[] = [
  [200, 1, 35, 0.66, 0.8, 17, 'axialSmall', 25],
  [200, 3, 100, 0.66, 0.84, 45, 'axialLarge', 25],
  [200, 8, 100, 0.68, 0.86, 70, 'single', 30],
  [200, 16, 100, 0.68, 0.87, 130, 'dual', 30],
  [200, 20, 180, 0.68, 0.87, 170, 'dual', 30],
  [200, 30, 250, 0.68, 0.88, 240, 'dual', 35],
  [300, 10, 100, 0.7, 0.95, 75, 'dual', 35],
  [300, 20, 180, 0.7, 0.96, 140, 'dual', 35],
  [300, 30, 250, 0.7, 0.97, 200, 'dual', 40],
  [400, 1, 35, 0.75, 1, 12, 'axialSmall', 50],
  [400, 3, 100, 0.75, 1, 30, 'axialLarge', 50],
  [400, 8, 100, 0.78, 1.05, 45, 'single', 50],
  [400, 16, 100, 0.78, 1.05, 85, 'dual', 50],
  [400, 30, 250, 0.78, 1.06, 150, 'dual', 55],
  [600, 1, 30, 0.85, 1.15, 9, 'axialSmall', 60],
  [600, 3, 80, 0.85, 1.15, 25, 'axialLarge', 60],
  [600, 8, 90, 0.9, 1.25, 35, 'single', 55],
  [1000, 1, 30, 1, 1.4, 7, 'axialSmall', 75],
  [1000, 3, 80, 1, 1.45, 20, 'axialLarge', 75],
]

const fast: readonly RecoveryRow[] = [
  [200, 0.2, 2.5, 0.6, 0.85, 3, 'signal', 50],
  [400, 1, 30, 0.7, 0.95, 15, 'axialSmall', 150],
  [600, 1, 30, 0.7, 1, 12, 'axialSmall', 200],
  [600, 3, 100, 0.7, 1, 30, 'axialLarge', 250],
  [800, 1.5, 50, 0.72, 1.05, 15, 'axialMedium', 300],
  [1000, 1, 30, 0.72, 1.05, 12, 'axialSmall', 500],
]

/** Slow diodes: for the mains side, or a clamp that gives energy back. */
const standard: readonly RecoveryRow[] = [
  [600, 1, 30, 0.68, 0.88, 15, 'axialSmall', 2000],
  [1000, 1, 30, 0.68, 0.9, 15, 'axialSmall', 2000],
  [1000, 3, 150, 0.68, 0.88, 40, 'axialLarge', 2500],
]

const words: Record<Diode['technology'], string> = {
  schottky: 'Schottky diode',
  ultrafast: 'ultrafast diode',
  fast: 'fast diode',
  standard: 'standard diode',
}

const diodeOf = (technology: Diode['technology'], row: Row | RecoveryRow): Diode => {
  const [reverse_V, average_A, surge_A, drop_V, ratedDrop_V, capacitance_pF, frame, recovery_ns = 0] = row
  const [label, toCase, toAmbient] = packages[frame]
  const dual = frame === 'dual' || frame === 'dualLarge'
  return {
    id: `diode-${technology}-${reverse_V}v-${average_A}a${dual ? '-dual' : ''}`,
    kind: 'diode',
    name: `${reverse_V} V, ${average_A} A ${dual ? 'dual ' : ''}${words[technology]}`,
    source,
    technology,
    reverse_V,
    average_A,
    surge_A,
    drop_V,
    slope_ohm: rounded((ratedDrop_V - drop_V) / average_A, 3),
    recovery_s: nano(recovery_ns),
    junctionCapacitance_F: pico(capacitance_pF),
    dual,
    package: label,
    junctionToCase_K_per_W: toCase,
    junctionToAmbient_K_per_W: toAmbient,
    maximumJunction_C: technology === 'schottky' ? (reverse_V < 100 ? 150 : 175) : 150,
  }
}

export const starterDiodes: readonly Diode[] = [
  ...schottky.map((row) => diodeOf('schottky', row)),
  ...ultrafast.map((row) => diodeOf('ultrafast', row)),
  ...fast.map((row) => diodeOf('fast', row)),
  ...standard.map((row) => diodeOf('standard', row)),
]
