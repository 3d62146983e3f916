import { handedShare, type RiseResponse } from '../../converter/rise.ts'
import type { Plant } from './plant.ts'

/** Inductance in which the current turns round from primary to secondary, leads of the first capacitors with it, H. */
export const handing_H = (p: Plant, leakage_H: number): number => leakage_H + p.capacitorLeads_H

/** Part of it on the secondary's side of the bias winding. */
export const secondarySide = (p: Plant, leakage_H: number): number =>
  (p.leakageStar.secondaryShare * leakage_H + p.capacitorLeads_H) / handing_H(p, leakage_H)

/**
 * Current that the bias winding takes out of the clamp's, A: it draws the chip's current from between the two parts of
 * the leakage while the clamp conducts, and the part on the secondary's side decides how much of it the primary
 * misses: s n I. Derived here from the two parts as a divider between two voltages that hold still.
 */
export const biasDraw_A = (p: Plant, leakage_H: number): number =>
  secondarySide(p, leakage_H) * p.biasPrimaryRatio * p.chipSupply_A

/** The rise of the drain with one of the two leakages that conditions have. */
const riseWith = ({ rise, leakage_H: spread }: Plant, leakage_H: number): RiseResponse =>
  leakage_H > spread.typical ? rise.maximum : rise.typical

/** Part of the peak current that is handed over where the rectifier's side rises by a voltage. */
export const handedAt = (p: Plant, leakage_H: number, swing_V: number, peak_A: number): number =>
  handedShare(riseWith(p, leakage_H), swing_V, peak_A)
