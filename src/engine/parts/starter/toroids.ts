import type { Toroid } from '../part.ts'
import { mm, nano, slug } from './units.ts'

/** A powder: its permeability, how it yields to a DC field (A/m, fraction left), and its losses. */
interface Powder {
  readonly tag: string
  readonly label: string
  readonly permeability: number
  readonly tolerance: number
  readonly bias: readonly (readonly [field_A_per_m: number, fraction: number])[]
  /** kHz, peak mT, kW/m3 at 25 °C (powders change little with temperature). */
  readonly losses: readonly (readonly [kHz: number, mT: number, density: number])[]
  readonly source: string
}

const memory = 'from memory: powder core handbooks of the trade'

const iron75: Powder = {
  tag: 'iron-75',
  label: 'iron powder, permeability 75',
  permeability: 75,
  tolerance: 0.1,
  bias: [
    [0, 1],
    [400, 0.98],
    [800, 0.93],
    [1600, 0.82],
    [2400, 0.71],
    [4000, 0.51],
    [6000, 0.36],
    [8000, 0.27],
    [16000, 0.13],
  ],
  losses: [
    [50, 10, 15],
    [50, 50, 450],
    [100, 10, 40],
    [100, 20, 170],
    [100, 50, 1170],
    [200, 10, 118],
    [200, 20, 470],
  ],
  source: memory,
}

const iron10: Powder = {
  tag: 'iron-10',
  label: 'carbonyl iron powder, permeability 10',
  permeability: 10,
  tolerance: 0.05,
  bias: [
    [0, 1],
    [8000, 0.995],
    [16000, 0.98],
    [40000, 0.88],
  ],
  losses: [
    [100, 10, 20],
    [100, 20, 75],
    [100, 50, 420],
    [200, 10, 44],
    [200, 20, 160],
  ],
  source: memory,
}

const alloy60: Powder = {
  tag: 'alloy-60',
  label: 'iron-silicon-aluminium powder, permeability 60',
  permeability: 60,
  tolerance: 0.08,
  bias: [
    [0, 1],
    [800, 0.985],
    [1600, 0.94],
    [3200, 0.81],
    [4800, 0.68],
    [6400, 0.57],
    [8000, 0.48],
    [12000, 0.32],
    [16000, 0.22],
  ],
  losses: [
    [50, 50, 85],
    [50, 100, 340],
    [100, 20, 32],
    [100, 50, 210],
    [100, 100, 850],
    [200, 20, 78],
    [200, 50, 510],
  ],
  source: memory,
}

const alloy125: Powder = {
  ...alloy60,
  tag: 'alloy-125',
  label: 'iron-silicon-aluminium powder, permeability 125',
  permeability: 125,
  bias: [
    [0, 1],
    [400, 0.985],
    [800, 0.94],
    [1600, 0.8],
    [2400, 0.66],
    [3600, 0.49],
    [5600, 0.31],
    [8000, 0.19],
  ],
}

const ringTable = 'published dimension and AL tables of powder rings'

/** Columns: powder, outer, inner, height in mm, inductance factor nH per turn squared, source of the row. */
const table: readonly (readonly [
  powder: Powder,
  outer: number,
  inner: number,
  height: number,
  factor_nH: number,
  source: string,
])[] = [
  [iron75, 9.4, 5.334, 3.048, 27.5, memory],
  [iron75, 12.7, 7.62, 4.826, 32, ringTable],
  [iron75, 15.24, 8.53, 5.94, 50, memory],
  [iron75, 17.5, 9.4, 4.83, 43.5, memory],
  [iron75, 20.32, 12.7, 6.35, 45, ringTable],
  [iron75, 23.9, 14.2, 7.92, 60, memory],
  [iron75, 26.9, 14.5, 11.1, 93, memory],
  [iron10, 9.4, 5.334, 3.048, 4, ringTable],
  [iron10, 12.7, 7.62, 4.826, 4.9, ringTable],
  [iron10, 20.32, 12.7, 6.35, 5.5, ringTable],
  [iron10, 50.8, 31.75, 13.97, 12, ringTable],
  [alloy60, 12.7, 7.62, 4.75, 27, memory],
  [alloy60, 16.5, 10.2, 6.35, 33, memory],
  [alloy60, 20.3, 12.7, 6.35, 32, memory],
  [alloy60, 22.9, 14, 7.6, 43, memory],
  [alloy60, 26.9, 14.7, 11.2, 75, memory],
  [alloy125, 12.7, 7.62, 4.75, 56, memory],
  [alloy125, 16.5, 10.2, 6.35, 72, memory],
  [alloy125, 20.3, 12.7, 6.35, 68, memory],
  [alloy125, 26.9, 14.7, 11.2, 157, memory],
]

export const starterToroids: readonly Toroid[] = table.map(
  ([powder, outer, inner, height, factor_nH, source]) => ({
    id: `toroid-${slug(outer)}mm-${powder.tag}`,
    kind: 'toroid',
    name: `${outer} mm toroid, ${powder.label}`,
    source: source === powder.source ? source : `${source}; bias and loss ${powder.source}`,
    outer_m: mm(outer),
    inner_m: mm(inner),
    height_m: mm(height),
    permeability: powder.permeability,
    inductanceFactor_H: nano(factor_nH),
    inductanceFactorTolerance: powder.tolerance,
    biasCurve: powder.bias.map(([field_A_per_m, fraction]) => ({ field_A_per_m, fraction })),
    lossPoints: powder.losses.map(([kHz, mT, density]) => ({
      frequency_Hz: kHz * 1e3,
      fluxPeak_T: mT / 1e3,
      temperature_C: 25,
      loss_W_per_m3: density * 1e3,
    })),
  }),
)
