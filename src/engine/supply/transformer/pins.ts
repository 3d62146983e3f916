import type { WoundSection } from '../../magnetics/stack/index.ts'
import { sectionNames } from './section-names.ts'
import { senseOfDots } from './winding-pins.ts'

/** One end of one winding entry at its pin. */
export interface PinUse {
  /** Null for a joint that lies off the pins. */
  readonly pin: number | null
  readonly part: string
  readonly end: 'start' | 'finish'
  /** The dotted end: all dotted ends swing together. */
  readonly dot: boolean
  /** Net on the board; empty where two parts of one winding are joined and nothing else connects. */
  readonly goesTo: string
  readonly side: 'primary' | 'secondary'
}

/** Board nets of the two ends of each whole winding: its dotted end, and the other. */
const nets: Record<string, readonly [dotted: string, other: string]> = {
  primary: ['U1 drain', 'bulk +'],
  secondary: ['rectifier', 'output −'],
  bias: ['bias diode', 'bulk −'],
}

/**
 * What is soldered to which pin, in the order of winding. A winding that turns the other way round than the primary
 * has its dot at its finish.
 */
export function pinUses(sections: readonly WoundSection[]): PinUse[] {
  const names = sectionNames(sections)
  const sense = senseOfDots(sections)
  return sections.flatMap((section, index): PinUse[] => {
    const parts = sections.filter((other) => other.winding === section.winding)
    const along = section.direction === sense
    const [dotted, other] = nets[section.winding] ?? ['', '']
    const [first, last] = parts[0]!.direction === sense ? [dotted, other] : [other, dotted]
    const side = section.winding === 'secondary' ? 'secondary' : 'primary'
    const common = { part: names[index]!, side } as const
    return [
      {
        ...common,
        pin: section.startPin,
        end: 'start',
        dot: along,
        goesTo: section === parts[0] ? first : '',
      },
      {
        ...common,
        pin: section.finishPin,
        end: 'finish',
        dot: !along,
        goesTo: section === parts.at(-1) ? last : '',
      },
    ]
  })
}

/** Names of parts that turn against the rest of their own winding: their volts would take away instead of add. */
export function fightingParts(sections: readonly WoundSection[]): string[] {
  const names = sectionNames(sections)
  return sections.flatMap((section, index) => {
    const first = sections.find((other) => other.winding === section.winding)!
    return section.direction === first.direction ? [] : [names[index]!]
  })
}

/** Pins on which two different nets, or a joint and a net, would meet: a short by plan. Empty where all is well. */
export function crowdedPins(
  sections: readonly WoundSection[],
): { readonly pin: number; readonly nets: readonly string[] }[] {
  const found = new Map<number, Set<string>>()
  for (const use of pinUses(sections)) {
    if (use.pin === null) continue
    const net = use.goesTo || `joint of ${use.part.replace(/\d+$/, '')}`
    found.set(use.pin, (found.get(use.pin) ?? new Set()).add(net))
  }
  return [...found].filter(([, nets]) => nets.size > 1).map(([pin, nets]) => ({ pin, nets: [...nets] }))
}
