import type { Build, Place } from '../../supply/build.ts'
import type { Supply } from '../../supply/supply.ts'
import type { Judged } from '../finish.ts'
import { withDivider } from './frozen.ts'

/** What is put back together, in the order of the work that it spares; a divider suits its reference and trimmer. */
const groups: readonly (readonly Place[])[] = [
  ['choke', 'chokeWire'],
  ['rectifier'],
  ['outputCapacitor'],
  ['secondCapacitor'],
  ['biasCapacitor'],
  ['reference', 'trimmer'],
  ['trimmer'],
  ['indicator'],
]

type Put = (build: Build, from: Build) => Build

const partsBack =
  (places: readonly Place[]): Put =>
  (build, from) => ({
    ...build,
    places: { ...build.places, ...Object.fromEntries(places.map((place) => [place, from.places[place]])) },
    ...(places.includes('outputCapacitor') ? { outputCount: from.outputCount } : {}),
    ...(places.includes('secondCapacitor') ? { secondCount: from.secondCount } : {}),
    ...(places.includes('choke') ? { chokeTurns: from.chokeTurns, chokeInHand: from.chokeInHand } : {}),
  })

/** The resistor of the indicator, and LED resistor and network of the loop, as they were. */
const valuesBack: readonly Put[] = [
  (build, from) => ({ ...build, indicatorResistor_ohm: from.indicatorResistor_ohm }),
  (build, { feedback: f }) => ({
    ...build,
    feedback: {
      ...build.feedback,
      ledResistor_ohm: f.ledResistor_ohm,
      biasResistor_ohm: f.biasResistor_ohm,
      compensationResistor_ohm: f.compensationResistor_ohm,
      compensationCapacitor_F: f.compensationCapacitor_F,
      highFrequencyCapacitor_F: f.highFrequencyCapacitor_F,
    },
  }),
]

/**
 * Of what was changed on a built supply for another output, only what has to be: everything that was there is put back,
 * group by group, where every limit still holds with it.
 */
export function fewestChanges(
  built: Supply,
  changed: Judged,
  judge: (supply: Supply) => Judged | null,
): Judged {
  let best = changed
  const puts = [...groups.map((places) => partsBack(places)), ...valuesBack]
  // Twice: what is put back may make room for another.
  for (const put of [...puts, ...puts]) {
    const build = put(best.supply.build, built.build)
    if (JSON.stringify(build) === JSON.stringify(best.supply.build)) continue
    const ids = new Set(Object.values(build.places))
    const known = [
      ...best.supply.parts,
      ...built.parts.filter((p) => !best.supply.parts.some((q) => q.id === p.id)),
    ]
    const supply = { ...best.supply, build, parts: known.filter(({ id }) => ids.has(id)) }
    const moved =
      build.places.reference === best.supply.build.places.reference &&
      build.places.trimmer === best.supply.build.places.trimmer
        ? supply
        : withDivider(supply, supply.need)
    const judged = judge(moved)
    if (judged?.assessment.holds) best = judged
  }
  return best
}
