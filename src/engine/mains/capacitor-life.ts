import { requireBetween } from '../quantity/require.ts'

/**
 * Life of an electrolytic by the 10 K rule: L = L0 2^((T0 - T)/10), hours. Valid from about 40 C to the rated
 * temperature. Source: Cosel technical Q&A, https://www.cosel.com/en/coselplus/technical/100.
 */
export function lifeByTenKelvin(life_h: number, rated_C: number, core_C: number): number {
  requireBetween('life_h', life_h, 1, 1e7, 'h')
  requireBetween('rated_C', rated_C, 40, 200, 'C')
  requireBetween('core_C', core_C, -60, 300, 'C')
  return life_h * 2 ** ((rated_C - core_C) / 10)
}

/** Seals and electrolyte end a capacitor's life whatever the rule says: no more than 15 years is claimed; common practice. */
const longestLife_h = 15 * 8766

export const claimedLife_h = (life_h: number): number => Math.min(life_h, longestLife_h)

export interface RippleLoad {
  /** Ripple current at twice the mains frequency, and at the switching frequency. */
  readonly line_Arms: number
  readonly switching_Arms: number
  /** Ratings at the two frequencies, at the rated temperature. */
  readonly ratedLine_Arms: number
  readonly ratedSwitching_Arms: number
}

/**
 * Fraction of the ripple rating in use: sqrt((I1/R1)^2 + (I2/R2)^2). Both terms are relative to their own rating, which
 * already holds the fall of series resistance with frequency.
 */
export function rippleUse(load: RippleLoad): number {
  requireBetween('ratedLine_Arms', load.ratedLine_Arms, 1e-6, 1e4, 'A')
  requireBetween('ratedSwitching_Arms', load.ratedSwitching_Arms, 1e-6, 1e4, 'A')
  return Math.hypot(load.line_Arms / load.ratedLine_Arms, load.switching_Arms / load.ratedSwitching_Arms)
}

/**
 * Temperature rise of a capacitor's core by its ripple current: rise at rated ripple times the square of the use.
 * 5 K at rated ripple is common practice for 105 C parts, no source.
 */
export const rippleHeating = (use: number, riseAtRated_K = 5): number => riseAtRated_K * use * use

/** More ripple is allowed in cooler air: 1.7 times at 40 K or more below the rated temperature; makers, from memory. */
export const coolAllowance = (rated_C: number, air_C: number): number =>
  1 + 0.7 * Math.max(0, Math.min(1, (rated_C - air_C - 20) / 20))

export interface CapacitorLife {
  readonly rippleUse: number
  readonly core_C: number
  /**
   * Hours to end of life, with the rated life taken to hold at rated temperature and rated ripple:
   * L0 2^((T0 + rise at rated ripple - core)/10), at most 15 years.
   */
  readonly life_h: number
}

/** Life of an electrolytic at an ambient temperature and a ripple load: the 10 K rule with ripple heating. */
export function capacitorLife(
  part: { readonly life_h: number; readonly temperature_C: number },
  load: RippleLoad,
  ambient_C: number,
  riseAtRated_K = 5,
): CapacitorLife {
  const use = rippleUse(load)
  const core_C = ambient_C + rippleHeating(use, riseAtRated_K)
  return {
    rippleUse: use,
    core_C,
    life_h: claimedLife_h(lifeByTenKelvin(part.life_h, part.temperature_C + riseAtRated_K, core_C)),
  }
}

/** An electrolytic counts as worn out at about 80 % of its first capacitance; common practice, no source. */
export const agedCapacitance = (capacitance_F: number): number => 0.8 * capacitance_F

/** Switching-frequency part of the capacitor's ripple: what the converter draws less its average, A rms. */
export const switchingRipple = (drawn_Arms: number, drawn_Aaverage: number): number =>
  Math.sqrt(Math.max(0, drawn_Arms * drawn_Arms - drawn_Aaverage * drawn_Aaverage))
