import { sequence } from '../../../../src/engine/search/space/shuffle.ts'
import type { Need } from '../../../../src/engine/supply/need.ts'

/** Mains of the world as supplies are sold for it: lowest, nominal, highest, Hz. */
const grids = [
  [195, 230, 265, 50],
  [207, 230, 253, 50],
  [85, 230, 265, 50],
  [90, 120, 132, 60],
  [100, 120, 140, 60],
] as const

const digits = (value: number, count: number): number => Number(value.toPrecision(count))

/** One of the needs of a seed: 5 to 150 W at 5 to 48 V from one of the usual mains, in all sorts of surroundings. */
export function randomNeed(seed: number, index: number): Need {
  const next = sequence(Math.imul(seed, 0x9e3779b1) + Math.imul(index + 1, 0x85ebca6b))
  const between = (low: number, high: number): number => low + (high - low) * next()
  const logBetween = (low: number, high: number): number => low * (high / low) ** next()
  const one = <T>(of: readonly T[]): T => of[Math.floor(next() * of.length)]!
  const power_W = logBetween(5, 150)
  const output_V = digits(logBetween(5, 48), 2)
  const trim = one([0, 0, 0.03, 0.05])
  const [low, nominal, high, frequency_Hz] = one(grids)
  return {
    source: {
      kind: 'mains',
      minimum_Vrms: Math.min(nominal, Math.round(low * between(0.97, 1.08))),
      nominal_Vrms: nominal,
      maximum_Vrms: high,
      frequency_Hz,
    },
    output_V,
    trimLow_V: digits(output_V * (1 - trim), 4),
    trimHigh_V: digits(output_V * (1 + trim), 4),
    output_A: digits(power_W / output_V, 3),
    ripple_Vpp: digits(Math.max(0.05, output_V * between(0.006, 0.02)), 2),
    holdUp_s: one([0, 0, 0.01]),
    ambient_C: Math.round(between(5, 50)),
    cooling: one(['open', 'case-vented', 'case-vented', 'case-closed', 'fan'] as const),
    feeds: one(['electronics', 'resistive', 'charging'] as const),
    insulation: one(['reinforced', 'reinforced', 'basic'] as const),
    pollutionDegree: 2,
    altitude_m: one([0, 500, 2000]),
  }
}
