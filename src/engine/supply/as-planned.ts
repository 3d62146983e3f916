import { emptyBench } from './bench-log.ts'
import type { Supply } from './supply.ts'

/** Whether anything of the supply was measured that takes the place of what was planned. */
export const isMeasured = (supply: Supply): boolean =>
  Object.values(supply.bench.asBuilt).some((measured) => measured != null)

/** The supply as it was planned, before anything of it was measured; instruments, ticks and log stay. */
export const asPlanned = (supply: Supply): Supply => ({
  ...supply,
  bench: { ...supply.bench, asBuilt: emptyBench().asBuilt },
})
