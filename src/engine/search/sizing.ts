import type { Need } from '../supply/need.ts'

/** Highest and lowest voltages and currents that parts are sized by. */
export interface Sizing {
  readonly crest_V: number
  readonly input_Arms: number
  readonly power_W: number
  readonly reflected_V: number
  readonly rectifierReverse_V: number
  readonly outputMaximum_V: number
  readonly mains: boolean
  readonly wide: boolean
}

/** Sizes by rule of the trade what parts must stand. */
export function sizing(need: Need): Sizing {
  const s = need.source
  const mains = s.kind === 'mains'
  const crest_V = mains ? s.maximum_Vrms * Math.SQRT2 : s.maximum_V
  const least_V = mains ? s.minimum_Vrms : s.minimum_V
  const power_W = need.output_V * need.output_A
  const wide = least_V < (mains ? 180 : 200)
  const reflected_V = crest_V < 230 ? 60 : wide ? 100 : 120
  const turnsRatio = reflected_V / (need.output_V + 0.7)
  return {
    crest_V,
    input_Arms: power_W / 0.8 / least_V / (mains ? 0.58 : 1),
    power_W,
    reflected_V,
    rectifierReverse_V: 1.28 * (need.trimHigh_V + crest_V / turnsRatio),
    outputMaximum_V: need.trimHigh_V,
    mains,
    wide,
  }
}
