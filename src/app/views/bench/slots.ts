import type { BenchView } from '../../state/route.ts'

/** Views of the middle that there are, in the order of their tabs; the first opens by itself. */
export const availableViews: readonly BenchView[] = [
  'schematic',
  'winding',
  'loop',
  'readings',
  'heat',
  'papers',
]
