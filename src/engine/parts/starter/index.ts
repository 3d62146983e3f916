import type { Drawer, Part } from '../part.ts'
import { starterAvalanches } from './avalanche.ts'
import { starterCapacitors } from './capacitors.ts'
import { starterCores } from './cores.ts'
import { starterDiodes } from './diodes.ts'
import { starterFeedback } from './feedback.ts'
import { starterFormers } from './formers.ts'
import { starterHardware } from './hardware.ts'
import { starterInsulation } from './insulation.ts'
import { starterMains } from './mains.ts'
import { starterMaterials } from './materials.ts'
import { starterSwitchers } from './switchers.ts'
import { starterToroids } from './toroids.ts'
import { starterWires } from './wires.ts'

export { enamelledOverall_m } from './enamel.ts'
export { enamelledWire, litzOverall_m, litzWire } from './wires.ts'

const parts: readonly Part[] = [
  ...starterSwitchers,
  ...starterCores,
  ...starterMaterials,
  ...starterFormers,
  ...starterWires,
  ...starterInsulation,
  ...starterToroids,
  ...starterDiodes,
  ...starterAvalanches,
  ...starterCapacitors,
  ...starterFeedback,
  ...starterMains,
  ...starterHardware,
]

/** The few things that a small workshop counts; everything else is there in enough number. */
const counted = (part: Part): number | null => {
  if (part.kind === 'switcher') return 5
  if (part.kind === 'core') return 4
  if (part.kind === 'former') return 2
  if (part.kind === 'heatsink') return 6
  if (part.kind === 'common-mode-choke') return 4
  return null
}

/**
 * Generic parts to begin with: no maker, no part number. Figures are typical of the trade or from memory of
 * handbooks, as each part's `source` says; a real part's data sheet goes before them.
 */
export const starterDrawer: Drawer = {
  format: 'gapwright-drawer',
  version: 1,
  name: 'Starter drawer',
  entries: parts.map((part) => ({ part, quantity: counted(part) })),
}
