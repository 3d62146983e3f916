import type { WoundSection } from '../../engine/magnetics/stack/index.ts'
import type { Former } from '../../engine/parts/part.ts'
import { pinUses } from '../../engine/supply/transformer/pins.ts'
import type { ConnectionPart } from '../winding/connections.ts'
import type { FormerModel } from '../winding/former.ts'

/** Pins of the former and what is soldered to each. */
export const formerModel = (former: Former, sections: readonly WoundSection[]): FormerModel => ({
  rowOne: former.rowOne,
  rowTwo: former.rowTwo,
  pins: pinUses(sections).flatMap((use) => (use.pin === null ? [] : [{ ...use, pin: use.pin }])),
  direction: sections[0]?.direction ?? 'clockwise',
})

/** Every part of every winding with both of its ends. */
export function connectionParts(sections: readonly WoundSection[]): ConnectionPart[] {
  const uses = pinUses(sections)
  return sections.map((section, index) => ({
    name: uses[2 * index]!.part,
    winding: section.winding,
    turns: section.turns,
    start: uses[2 * index]!,
    finish: uses[2 * index + 1]!,
  }))
}
