import type { WoundSection } from '../../engine/magnetics/stack/index.ts'
import type { Design } from '../../engine/supply/design.ts'
import { pinGroups } from '../../engine/supply/pin-sharing.ts'
import { pinUses } from '../../engine/supply/transformer/pins.ts'
import type { ConnectionPart } from '../winding/connections.ts'
import type { FormerModel, PinUse } from '../winding/former.ts'

/** Pins of the former and what is soldered to each, those that share the wires of one end included. */
export function formerModel(design: Design): FormerModel {
  const { former } = design.parts
  const { sections } = design.transformer.coil.layout
  const groups = pinGroups(design)
  return {
    rowOne: former.rowOne,
    rowTwo: former.rowTwo,
    pins: pinUses(sections).flatMap((use): PinUse[] =>
      use.pin === null ? [] : (groups.get(use.pin) ?? [use.pin]).map((pin) => ({ ...use, pin })),
    ),
    direction: sections[0]?.direction ?? 'clockwise',
  }
}

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
