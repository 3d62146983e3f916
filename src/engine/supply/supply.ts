import { z } from 'zod'
import { text } from '../parts/fields.ts'
import { type PartKind, type PartOf, part } from '../parts/part.ts'
import { bench } from './bench-log.ts'
import { build, type Place } from './build.ts'
import { need } from './need.ts'

/** Which kind of part each place of a build takes. */
export const placeKind = {
  switcher: 'switcher',
  core: 'core',
  material: 'material',
  former: 'former',
  primaryWire: 'wire',
  secondaryWire: 'wire',
  biasWire: 'wire',
  tape: 'tape',
  spacerFilm: 'film',
  rectifier: 'diode',
  clampDiode: 'diode',
  clampAvalanche: 'avalanche',
  biasDiode: 'diode',
  bridge: 'bridge',
  ntc: 'ntc',
  fuse: 'fuse',
  varistor: 'varistor',
  xCapacitor: 'capacitor',
  commonModeChoke: 'common-mode-choke',
  yCapacitor: 'capacitor',
  bulkCapacitor: 'capacitor',
  outputCapacitor: 'capacitor',
  choke: 'toroid',
  chokeWire: 'wire',
  secondCapacitor: 'capacitor',
  biasCapacitor: 'capacitor',
  optocoupler: 'optocoupler',
  reference: 'reference',
  trimmer: 'trimmer',
  indicator: 'led',
  switcherHeatsink: 'heatsink',
  switcherPad: 'pad',
  rectifierHeatsink: 'heatsink',
  rectifierPad: 'pad',
} as const satisfies Record<Place, PartKind>

export type KindAt<P extends Place> = (typeof placeKind)[P]
export type PartAt<P extends Place> = PartOf<KindAt<P>>

/**
 * One supply, whole: the need, copies of the parts used (so that the file can be opened by anyone), how they are
 * put together, and what the bench said.
 */
export const supply = z
  .strictObject({
    format: z.literal('gapwright-supply'),
    version: z.literal(1),
    id: z.string().regex(/^[a-z0-9][a-z0-9-]{0,63}$/, {
      message: 'an id is 1 to 64 of a-z, 0-9 and hyphen, and starts with a letter or digit',
    }),
    name: z.string().min(1).max(120),
    revision: z.string().min(1).max(20),
    note: text(20000),
    need,
    parts: z.array(part).max(200),
    build,
    bench,
  })
  .superRefine((s, context) => {
    const kinds = new Map(s.parts.map((p) => [p.id, p.kind]))
    if (kinds.size !== s.parts.length)
      context.addIssue({ code: 'custom', path: ['parts'], message: 'two parts share one id' })
    for (const [place, id] of Object.entries(s.build.places) as [Place, string | null][]) {
      if (id === null) continue
      const kind = kinds.get(id)
      if (kind !== placeKind[place])
        context.addIssue({
          code: 'custom',
          path: ['build', 'places', place],
          message: kind
            ? `${place} needs ${withArticle(placeKind[place])}, and ${id} is ${withArticle(kind)}`
            : `no part with id ${id} is in this supply`,
        })
    }
  })

const withArticle = (noun: string): string => `${/^[aeiou]/.test(noun) ? 'an' : 'a'} ${noun}`

export type Supply = z.infer<typeof supply>
