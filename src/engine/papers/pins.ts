import type { WoundSection } from '../magnetics/stack/index.ts'
import { sectionNames } from './section-names.ts'

/** One end of one winding entry at its pin. */
export interface PinUse {
  readonly pin: number
  readonly part: string
  readonly end: 'start' | 'finish'
  /** Net on the board; empty where two parts of one winding are joined and nothing else connects. */
  readonly goesTo: string
  readonly side: 'primary' | 'secondary'
}

/** Board nets of the two ends of each whole winding: its start (the dot) and its finish. */
const ends: Record<string, readonly [start: string, finish: string]> = {
  primary: ['drain', 'bulk +'],
  secondary: ['rectifier', 'output −'],
  bias: ['bias diode', 'primary −'],
}

/** What is soldered to which pin, in the order of winding. */
export function pinUses(sections: readonly WoundSection[]): PinUse[] {
  const names = sectionNames(sections)
  return sections.flatMap((section, index) => {
    const parts = sections.filter((other) => other.winding === section.winding)
    const [start, finish] = ends[section.winding] ?? ['', '']
    const side = section.winding === 'secondary' ? 'secondary' : 'primary'
    const part = names[index]!
    return [
      { pin: section.startPin, part, end: 'start', goesTo: section === parts[0] ? start : '', side },
      { pin: section.finishPin, part, end: 'finish', goesTo: section === parts.at(-1) ? finish : '', side },
    ] as const
  })
}
