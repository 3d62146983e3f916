import { formatQuantity, type Unit } from '../quantity/index.ts'
import type { Evaluation } from '../supply/evaluation.ts'
import { type Cell, figureCell, type Paper, strong, words } from './document.ts'
import { foot, subtitle } from './heading.ts'

/** A fault of this supply, as much of it as the card prints. */
export interface PrintedFault {
  readonly title: string
  readonly telling: string
  readonly remedy: string
  readonly danger: string
  readonly tell: {
    readonly what: string
    readonly between: string
    readonly unit: Unit | null
    readonly healthy: number | string
    readonly faulty: number | string
  } | null
}

/** Readings that a meter at the bench shows as nothing. */
const nothing: Partial<Record<Unit, readonly [below: number, words: string]>> = {
  V: [5e-3, '0 V'],
  ohm: [0.5, 'under 1 Ω'],
}

function reading(value: number | string | undefined, unit: Unit | null): Cell {
  if (typeof value !== 'number' || !unit) return words(String(value ?? ''))
  const [below, none] = nothing[unit] ?? [0, '']
  return figureCell(Math.abs(value) < below ? none : formatQuantity(value, unit, 2))
}

/** Fault card: what gives each fault away with nothing live, healthy beside faulty, and what to do. */
export function faultCardPaper(evaluation: Evaluation, faults: readonly PrintedFault[]): Paper {
  return {
    id: 'fault-card',
    title: 'Fault card',
    subtitle: subtitle(evaluation),
    foot: foot(evaluation),
    blocks: [
      {
        kind: 'caution',
        text: 'Unplug, discharge C2 through a resistor and read it before any of these. All readings here are taken with nothing live; the finder of the program ranks what was read, and knows more faults than stand here.',
      },
      {
        kind: 'table',
        caption: 'Faults that hurt first, then by how often they are met',
        columns: [
          { title: 'Fault' },
          { title: 'Read unpowered' },
          { title: 'Healthy', number: true },
          { title: 'With it', number: true },
          { title: 'How it shows; what to do' },
        ],
        rows: faults.map(({ title, tell, telling, remedy, danger }) => [
          strong(title),
          words(tell ? [tell.what, tell.between].filter(Boolean).join(': ') : 'shows only under power'),
          reading(tell?.healthy, tell?.unit ?? null),
          reading(tell?.faulty, tell?.unit ?? null),
          words([danger, telling, remedy].filter(Boolean).join(' ')),
        ]),
      },
    ],
  }
}
