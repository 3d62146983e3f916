import { copperSkinDepth_m } from '../magnetics/wire/index.ts'
import type { Core, Drawer, Former, Switcher } from '../parts/part.ts'
import type { Places } from '../supply/build.ts'
import type { Need } from '../supply/need.ts'
import { feedbackKit } from './kit/feedback-kit.ts'
import { mainsKits } from './kit/mains-kit.ts'
import { outputKits } from './kit/output-kit.ts'
import { bestMaterial, smallKit, tapeFor } from './kit/small-parts.ts'
import { insulatedWires, plainWires, wireFor } from './kit/wire-kit.ts'
import { cheapestOrNearest, held } from './pick.ts'
import { sizing } from './sizing.ts'

/** A part for every place, how many of them, and the divider. */
export interface FirstParts {
  readonly places: Places
  readonly bulkCount: number
  readonly outputCount: number
  readonly dividerTop_ohm: number | null
  readonly dividerBottom_ohm: number | null
}

/** Everything of a supply that neither core nor switcher decides. */
export type Surroundings = Omit<FirstParts, 'places'> & {
  readonly places: Omit<
    Places,
    'switcher' | 'core' | 'material' | 'former' | 'tape' | 'primaryWire' | 'secondaryWire' | 'rectifier'
  >
}

/** Chooses by rule what neither core nor switcher decides; `most` mains sides by `most` output sides. */
export function surroundings(need: Need, drawer: Drawer, most: number): Surroundings[] {
  const z = sizing(need)
  const feedback = feedbackKit(need, drawer)
  const { places: small } = smallKit(drawer, z)
  const outputs = outputKits(need, drawer, z, most)
  return mainsKits(need, drawer, z, most).flatMap((mains) =>
    outputs.map((output) => ({
      places: {
        spacerFilm: null,
        clampAvalanche: null,
        switcherHeatsink: null,
        switcherPad: null,
        rectifierHeatsink: null,
        rectifierPad: null,
        ...small,
        ...feedback.places,
        ...mains.places,
        ...output.places,
      },
      bulkCount: mains.bulkCount,
      outputCount: output.outputCount,
      dividerTop_ohm: feedback.dividerTop_ohm,
      dividerBottom_ohm: feedback.dividerBottom_ohm,
    })),
  )
}

/** Chooses a part for every place by rule, from what the drawer holds. */
export function firstPlaces(
  need: Need,
  drawer: Drawer,
  around: Surroundings,
  switcher: Switcher,
  core: Core,
  former: Former,
): FirstParts {
  const z = sizing(need)
  const wires = held(drawer, 'wire')
  const skin_m = copperSkinDepth_m(switcher.frequency_Hz.typical, 100)
  const plain = plainWires(drawer)
  const insulated = insulatedWires(need, drawer)
  const primary_Arms = (1.6 * z.power_W) / 0.8 / (z.mains ? 1.05 * lowest_V(need) : lowest_V(need))
  const rectifier = cheapestOrNearest(
    held(drawer, 'diode'),
    (d) =>
      d.reverse_V >= z.rectifierReverse_V &&
      d.average_A >= 3 * need.output_A &&
      d.technology !== 'standard' &&
      d.technology !== 'fast',
    (d) => (d.drop_V + d.slope_ohm * 2 * need.output_A) * 100 + d.average_A * 0.2 + d.reverse_V * 0.01,
    (d) => Math.min(d.reverse_V / z.rectifierReverse_V, d.average_A / (3 * need.output_A)),
  )!
  return {
    ...around,
    places: {
      ...around.places,
      switcher: switcher.id,
      core: core.id,
      material: bestMaterial(held(drawer, 'material'), switcher.frequency_Hz.typical).id,
      former: former.id,
      primaryWire: wireFor(plain.length > 0 ? plain : wires, primary_Arms, 1.9 * skin_m).id,
      secondaryWire: wireFor(
        insulated.length > 0 ? insulated : plain.length > 0 ? plain : wires,
        1.7 * need.output_A,
        2.1 * skin_m,
      ).id,
      tape: tapeFor(drawer, former),
      rectifier: rectifier.id,
    },
  }
}

const lowest_V = (need: Need): number =>
  need.source.kind === 'mains' ? need.source.minimum_Vrms : need.source.minimum_V
