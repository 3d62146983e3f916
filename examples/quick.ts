import { assessWhole, at, type Need, proposeSupply, starterDrawer } from '../src/engine/index.ts'

const need: Need = {
  source: { kind: 'mains', minimum_Vrms: 85, nominal_Vrms: 230, maximum_Vrms: 265, frequency_Hz: 50 },
  ...{ output_V: 12, trimLow_V: 12, trimHigh_V: 12, output_A: 2, ripple_Vpp: 0.15, holdUp_s: 0.01 },
  ...{ ambient_C: 35, cooling: 'case-vented', feeds: 'electronics' },
  ...{ insulation: 'reinforced', pollutionDegree: 2, altitude_m: 200 },
}
const supply = proposeSupply(need, starterDrawer)
if (!supply.ok) throw new Error(supply.problems[0]?.message)
const judged = assessWhole(supply.value)
if (!judged.ok) throw new Error(judged.problems[0]?.message)
const { givesFirst, evaluation } = judged.value
const { primaryTurns, secondaryTurns, gap_m } = evaluation.design.transformer
export const lines = [
  `${primaryTurns} to ${secondaryTurns} turns, gap ${(gap_m * 1e3).toFixed(2)} mm`,
  `efficiency ${((at(evaluation, 'nominal-100')?.readings.efficiency ?? 0) * 100).toFixed(0)} % at 230 V, full load`,
  `gives first: ${givesFirst.title}, ${(givesFirst.margin * 100).toFixed(0)} % left`,
]
