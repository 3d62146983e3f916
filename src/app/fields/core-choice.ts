import type { Core, Drawer, Former } from '../../engine/parts/part.ts'
import type { Supply } from '../../engine/supply/supply.ts'
import { assessmentOf } from '../state/assessment.ts'
import { applyChanges, type Change, type Path, valueAt } from '../state/edits.ts'
import { setting } from './check.ts'
import { partAt, partsChanges } from './parts-in-use.ts'

/** What changes when a part is put into its place. */
export interface PartChoice {
  readonly changes: readonly Change[]
  /** The former that comes along with a core, where the one in use does not fit it. */
  readonly former: Former | null
  /** Whether what was fixed of the windings is given back to the tool, as it does not fit. */
  readonly rewound: boolean
}

/** What a builder may have fixed of the windings, and what makes no sense on a core that it does not fit. */
const windingPaths: readonly Path[] = [
  'primaryTurns',
  'secondaryTurns',
  'biasTurns',
  'primaryInHand',
  'secondaryInHand',
  'biasInHand',
  'gap_m',
  'stack',
].map((field) => ['build', 'transformer', field])

/** Room of the weakest limit, and whether the coil goes together and into the window at all. */
const outcome = (supply: Supply) => {
  const result = assessmentOf(supply)
  if (!result.ok) return { fits: false, margin: Number.NEGATIVE_INFINITY }
  const { limits, givesFirst } = result.value
  const fits = limits.every((l) => l.id !== 'transformer.fit' || l.holds)
  return { fits, margin: givesFirst.margin }
}

/**
 * A core with a former that fits it: the one in use, else that of the drawer with the most room. What is fixed of
 * the windings stays where it fits the window, else it is given back to the tool. Null when no former fits.
 */
export const coreChoice = (supply: Supply, core: Core, drawer: Drawer | undefined): PartChoice | null => {
  const present = partAt(supply, 'former') as Former | null
  const formers =
    present?.fits.includes(core.size) === true
      ? [present]
      : (drawer?.entries ?? [])
          .map((entry) => entry.part)
          .filter((part): part is Former => part.kind === 'former' && part.fits.includes(core.size))
  const choices = formers.map((former) => {
    const other = former === present ? null : former
    const keeping = partsChanges(supply, { core, ...(other && { former: other }) })
    const freeing = windingPaths.filter((path) => valueAt(supply, path) !== null)
    const rewinding = [
      ...keeping,
      ...setting(
        supply,
        freeing.map((path) => [path, null]),
      ),
    ]
    const kept = outcome(applyChanges(supply, keeping))
    const anew = kept.fits || freeing.length === 0 ? kept : outcome(applyChanges(supply, rewinding))
    return anew.fits && !kept.fits
      ? { changes: rewinding, former: other, rewound: true, margin: anew.margin }
      : { changes: keeping, former: other, rewound: false, margin: kept.margin }
  })
  return choices.toSorted((a, b) => b.margin - a.margin)[0] ?? null
}
