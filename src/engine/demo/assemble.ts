import type { Part } from '../parts/part.ts'
import { starterDrawer } from '../parts/starter/index.ts'
import { emptyBench } from '../supply/bench-log.ts'
import type { Build, Places } from '../supply/build.ts'
import type { Need } from '../supply/need.ts'
import { openTransformer } from '../supply/open-transformer.ts'
import type { Supply } from '../supply/supply.ts'

/** What makes one demo supply: everything that is not left for the tool to choose. */
export interface DemoPlan {
  readonly id: string
  readonly name: string
  readonly note: string
  readonly need: Need
  readonly places: Places
  readonly counts: { readonly bulk: number; readonly output: number; readonly second: number }
  readonly transformer: Partial<Build['transformer']>
  readonly clamp: Build['clamp']
  readonly snubber: Build['snubber']
  readonly feedback?: Partial<Build['feedback']>
}

const parts = new Map<string, Part>(starterDrawer.entries.map(({ part }) => [part.id, part]))

/** A whole supply from a plan, with copies of the starter parts it uses. */
export function assemble(plan: DemoPlan): Supply {
  const used = [...new Set(Object.values(plan.places).filter((id) => id !== null))]
  return {
    format: 'gapwright-supply',
    version: 1,
    id: plan.id,
    name: plan.name,
    revision: 'A',
    note: plan.note,
    need: plan.need,
    parts: used.map((id) => parts.get(id)!),
    build: {
      places: plan.places,
      bulkCount: plan.counts.bulk,
      outputCount: plan.counts.output,
      secondCount: plan.counts.second,
      transformer: {
        ...openTransformer,
        ...plan.transformer,
      },
      clamp: plan.clamp,
      snubber: plan.snubber,
      chokeTurns: null,
      chokeInHand: null,
      bleed_ohm: null,
      indicatorResistor_ohm: null,
      feedback: {
        dividerTop_ohm: null,
        dividerBottom_ohm: null,
        ledResistor_ohm: null,
        biasResistor_ohm: null,
        compensationResistor_ohm: null,
        compensationCapacitor_F: null,
        highFrequencyCapacitor_F: null,
        softFinishCapacitor_F: null,
        senseAfterChoke: false,
        ledFeedAfterChoke: false,
        ...plan.feedback,
      },
    },
    bench: emptyBench(),
  }
}
