import { requireBetween } from '../quantity/require.ts'
import {
  altitudeFactor,
  creepage_mm,
  creepageVoltage_Vrms,
  impulse_V,
  impulseClearance_mm,
  leastClearance_mm,
  type MaterialGroup,
  peakClearance_mm,
} from './tables.ts'

export type Grade = 'basic' | 'reinforced'

/** The basis that the builder picks. */
export interface InsulationBasis {
  /** Highest mains voltage to neutral, V rms. */
  readonly mains_Vrms: number
  readonly overvoltage: 'II' | 'III'
  readonly pollutionDegree: 1 | 2 | 3
  readonly materialGroup: MaterialGroup
  readonly altitude_m: number
  readonly grade: Grade
  /** Across the barrier, from the solved waveforms. */
  readonly working_Vrms: number
  readonly working_Vpeak: number
}

export interface Distances {
  readonly clearance_m: number
  readonly creepage_m: number
  /** Which condition decides the clearance. */
  readonly clearanceFrom: 'mains transient' | 'working peak' | 'pollution degree'
  readonly impulse_V: number
}

/**
 * Rated impulse voltage for a mains voltage: the next row of the table at or above it, V peak. The rows are 50, 100,
 * 150, 300 and 600 V to neutral.
 */
export function ratedImpulse(mains_Vrms: number, overvoltage: 'II' | 'III'): number {
  requireBetween('mains_Vrms', mains_Vrms, 1, 600, 'V')
  return impulse_V[overvoltage].find(([volts]) => mains_Vrms <= volts)![1]
}

/**
 * Required clearance and creepage. Reinforced clearance: impulse of the next step of the series up (IEC 60664-1
 * cl. 5.2.5; memory), or twice the basic distance where that is more (IEC 62368-1 lists 3.0 mm for 2500 V); 160 % of
 * the recurring peak. Reinforced creepage: twice basic. Clearance grows with altitude above 2000 m. Creepage is never
 * less than clearance. Linear interpolation between rows where the standard allows it (not for mains transients, whose
 * rows are used as they stand).
 */
export function requiredDistances(basis: InsulationBasis): Distances {
  requireBetween('working_Vrms', basis.working_Vrms, 1, 1000, 'V')
  requireBetween('working_Vpeak', basis.working_Vpeak, 1, 2500, 'V')
  requireBetween('altitude_m', basis.altitude_m, -500, 5000, 'm')
  const impulse = ratedImpulse(basis.mains_Vrms, basis.overvoltage)
  const reinforced = basis.grade === 'reinforced'
  const basicByImpulse = rowAtOrAbove(impulseClearance_mm, impulse)
  const nextImpulse = impulseSteps.find((v) => v > impulse)!
  const byImpulse = reinforced
    ? Math.max(2 * basicByImpulse, rowAtOrAbove(impulseClearance_mm, nextImpulse))
    : basicByImpulse
  const byPeak = interpolate(peakClearance_mm, basis.working_Vpeak * (reinforced ? 1.6 : 1))
  const least = leastClearance_mm[basis.pollutionDegree]
  const height = interpolate(altitudeFactor, basis.altitude_m)
  const clearance = Math.max(byImpulse, byPeak, least)
  const rows =
    basis.pollutionDegree === 1 ? creepage_mm[1] : creepage_mm[basis.pollutionDegree][basis.materialGroup]
  const creepage = interpolate(
    creepageVoltage_Vrms.map((v, k) => [v, rows[k]!] as const),
    basis.working_Vrms,
  )
  const clearance_m = clearance * height * 1e-3
  return {
    clearance_m,
    creepage_m: Math.max(creepage * (reinforced ? 2 : 1) * 1e-3, clearance_m),
    clearanceFrom:
      clearance === least ? 'pollution degree' : clearance === byImpulse ? 'mains transient' : 'working peak',
    impulse_V: impulse,
  }
}

/** Preferred series of rated impulse voltages, V peak (IEC 60664-1, memory). */
const impulseSteps = [330, 500, 800, 1500, 2500, 4000, 6000, 8000, 12000] as const

function rowAtOrAbove(table: readonly (readonly [number, number])[], x: number): number {
  return (table.find(([at]) => x <= at) ?? table[table.length - 1]!)[1]
}

/** Linear between rows; the first row's value below it, the last slope's value above it. */
function interpolate(table: readonly (readonly [number, number])[], x: number): number {
  if (x <= table[0]![0]) return table[0]![1]
  for (let k = 1; k < table.length; k++) {
    const [x1, y1] = table[k]!
    const [x0, y0] = table[k - 1]!
    if (x <= x1 || k === table.length - 1) return y0 + ((y1 - y0) * (x - x0)) / (x1 - x0)
  }
  return table[table.length - 1]![1]
}
