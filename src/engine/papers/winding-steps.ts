import type { StackLayout, WoundSection } from '../magnetics/stack/index.ts'
import { shortValue } from '../parts/short-value.ts'
import { sectionNames } from '../supply/transformer/section-names.ts'

/** One step at the winder: a winding entry with what to lay over it. */
export interface WindingStep {
  readonly number: number
  readonly name: string
  readonly section: WoundSection
  /** What is wound, for instance `0.4 mm gr. 2`. */
  readonly wire: string
  readonly inHand: number
  /** Turns of each layer from the former outward. */
  readonly layers: readonly number[]
  readonly tapeInside: number
  readonly tapeAfter: number
  readonly shieldPin: number | null
  /** The next part of this winding, which starts where this one ends. */
  readonly joinsNext: string | null
  /** Nothing is wound over it. */
  readonly outermost: boolean
}

/** Steps in the order of winding, tapes and shields folded into the step before them. */
export function windingSteps(layout: StackLayout): WindingStep[] {
  const names = sectionNames(layout.sections)
  return layout.sections.map((section, index) => {
    const { wire, inHand } = layout.input.wires[section.winding]!
    const next = layout.sections[index + 1]
    const until = next ? next.entry : Number.POSITIVE_INFINITY
    const between = (entry: number) => entry > section.entry && entry < until
    const tapes = layout.tapes.filter((tape) => tape.between === 'entries' && between(tape.entry))
    const joined = layout.sections.findIndex((other, at) => at > index && other.winding === section.winding)
    return {
      number: index + 1,
      name: names[index]!,
      section,
      wire: wire.construction === 'enamelled' ? `${shortValue(wire)} gr. ${wire.grade}` : shortValue(wire),
      inHand,
      layers: layout.layers.filter((layer) => layer.entry === section.entry).map((layer) => layer.turns),
      tapeInside: layout.input.tapeLayersInside,
      tapeAfter: tapes.reduce((sum, tape) => sum + tape.layers, 0),
      shieldPin: layout.shields.find((shield) => between(shield.entry))?.pin ?? null,
      joinsNext: joined >= 0 ? names[joined]! : null,
      outermost: next === undefined,
    }
  })
}
