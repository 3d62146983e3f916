import type { WoundSection } from '../../magnetics/stack/index.ts'

/** The sense that dots are counted from: that of the part of the primary which is wound first. */
export const senseOfDots = (sections: readonly WoundSection[]): WoundSection['direction'] =>
  (sections.find((s) => s.winding === 'primary') ?? sections[0])?.direction ?? 'clockwise'

/** Two pins of a whole winding: all dotted ends swing together. */
export interface WindingPins {
  readonly dotted: number
  readonly other: number
}

/** The two pins between which a whole winding is measured; null where it is not wound or ends on no pin. */
export function windingPins(sections: readonly WoundSection[], winding: string): WindingPins | null {
  const parts = sections.filter((section) => section.winding === winding)
  const [first, last] = [parts[0], parts.at(-1)]
  if (!first || !last) return null
  const [start, finish] = [first.startPin, last.finishPin]
  if (start === null || finish === null) return null
  return first.direction === senseOfDots(sections)
    ? { dotted: start, other: finish }
    : { dotted: finish, other: start }
}
