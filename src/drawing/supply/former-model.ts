import type { WoundSection } from '../../engine/magnetics/stack/index.ts'
import { pinUses } from '../../engine/papers/pins.ts'
import type { Former } from '../../engine/parts/part.ts'
import type { FormerModel } from '../winding/former.ts'

/** Pins of the former and what is soldered to each. */
export const formerModel = (former: Former, sections: readonly WoundSection[]): FormerModel => ({
  rowOne: former.rowOne,
  rowTwo: former.rowTwo,
  pins: pinUses(sections),
  direction: sections[0]?.direction ?? 'clockwise',
})
