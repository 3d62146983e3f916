import type { PartOf, Tape } from '../part.ts'
import { mm } from './units.ts'

const source = 'typical of the trade, no source'

/** Tapes and films: thickness in all, and the peak voltage that one layer stands. */
const tapeMakes = [
  { id: 'polyester-55um', label: 'Polyester tape 0.055 mm', thickness: 0.055, strength: 5500, limit_C: 130 },
  { id: 'polyester-60um', label: 'Polyester tape 0.06 mm', thickness: 0.06, strength: 5500, limit_C: 130 },
  {
    id: 'polyester-film-25um',
    label: 'Polyester film 0.025 mm',
    thickness: 0.025,
    strength: 4000,
    limit_C: 130,
  },
  {
    id: 'polyester-film-50um',
    label: 'Polyester film 0.05 mm',
    thickness: 0.05,
    strength: 6500,
    limit_C: 130,
  },
] as const
const tapeWidths_mm = [7.5, 9, 12, 13, 15, 16, 19, 20, 25, 30]

const tapes: readonly Tape[] = tapeMakes.flatMap((make) =>
  tapeWidths_mm.map((width) => ({
    id: `tape-${make.id}-${width}mm`,
    kind: 'tape' as const,
    name: `${make.label}, ${width} mm wide`,
    source,
    thickness_m: mm(make.thickness),
    width_m: mm(width),
    strength_V: make.strength,
    temperature_C: make.limit_C,
  })),
)

/** Margin tape is thick: it fills the margin up to the height of the winding beside it. */
const marginTapes: readonly Tape[] = [1.5, 2, 2.5, 3, 3.2, 4, 5, 6].map((width) => ({
  id: `tape-margin-${width}mm`,
  kind: 'tape',
  name: `Margin tape 0.25 mm, ${width} mm wide`,
  source,
  thickness_m: mm(0.25),
  width_m: mm(width),
  strength_V: 6000,
  temperature_C: 130,
}))

const sleevings: readonly PartOf<'sleeving'>[] = [0.5, 0.7, 1, 1.5, 2, 3].map((bore) => ({
  id: `sleeving-${bore}mm`,
  kind: 'sleeving',
  name: `Sleeving ${bore} mm bore, 0.41 mm wall`,
  source: 'wall: common practice, no source',
  wall_m: mm(0.41),
  bore_m: mm(bore),
  temperature_C: 200,
}))

const films: readonly PartOf<'film'>[] = [0.025, 0.05, 0.075, 0.1, 0.125, 0.19, 0.25, 0.35, 0.5].map(
  (thickness) => ({
    id: `film-${thickness}mm`,
    kind: 'film',
    name: `Spacer film ${thickness} mm`,
    source,
    thickness_m: mm(thickness),
    temperature_C: 150,
  }),
)

export const starterInsulation: readonly (Tape | PartOf<'sleeving'> | PartOf<'film'>)[] = [
  ...tapes,
  ...marginTapes,
  ...sleevings,
  ...films,
]
