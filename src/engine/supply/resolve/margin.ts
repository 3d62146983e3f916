import { type InsulationBasis, requiredDistances } from '../../insulation/index.ts'
import type { Need } from '../need.ts'

/** Creepage that the chosen basis asks between primary and secondary: working voltage 250 V rms, 450 V peak, m. */
export function requiredCreepage(need: Need): Asked {
  let asked = known.get(need)
  if (!asked) {
    asked = requiredDistances(insulationBasis(need))
    known.set(need, asked)
  }
  return asked
}

interface Asked {
  readonly creepage_m: number
  readonly clearance_m: number
}

const known = new WeakMap<Need, Asked>()

/**
 * What insulation distances are counted from: mains, place, and the working voltages between the sides; the peak at
 * least the crest with what the winding reflects.
 */
export function insulationBasis(need: Need, reflected_V = 0): InsulationBasis {
  const mains_Vrms =
    need.source.kind === 'mains' ? need.source.maximum_Vrms : need.source.maximum_V / Math.SQRT2
  const low = mains_Vrms <= 150
  const added_Vpeak = mains_Vrms * Math.SQRT2 + reflected_V
  return {
    mains_Vrms: Math.min(600, mains_Vrms),
    overvoltage: 'II',
    pollutionDegree: need.pollutionDegree,
    materialGroup: 'III',
    altitude_m: need.altitude_m,
    grade: need.insulation,
    working_Vrms: low ? 150 : 250,
    working_Vpeak: Math.max(low ? 270 : 450, added_Vpeak),
  }
}

/** Margin at each side: half of the creepage, rounded up to 0.1 mm; none with triple-insulated wire. */
export const marginFor = (need: Need, insulation: 'margins' | 'triple-insulated'): number =>
  insulation === 'triple-insulated' ? 0 : Math.ceil(requiredCreepage(need).creepage_m * 0.5e4 - 1e-6) / 1e4
