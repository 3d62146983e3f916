import { z } from 'zod'
import { commonModeChoke, core, former, material, toroid } from './magnetic.ts'
import { capacitor, fuse, heatsink, lamp, ntc, pad, resistor, trimmer, varistor } from './passive.ts'
import { avalanche, bridge, diode, led, optocoupler, reference, switcher } from './silicon.ts'
import { film, sleeving, tape, wire } from './wire.ts'

/** Every kind of part that a drawer can hold; `kind` tells which. */
export const part = z.discriminatedUnion('kind', [
  switcher,
  core,
  material,
  former,
  wire,
  tape,
  sleeving,
  film,
  toroid,
  commonModeChoke,
  diode,
  avalanche,
  bridge,
  capacitor,
  resistor,
  trimmer,
  ntc,
  fuse,
  varistor,
  optocoupler,
  reference,
  led,
  heatsink,
  pad,
  lamp,
])

export type Part = z.infer<typeof part>
export type PartKind = Part['kind']
export type PartOf<K extends PartKind> = Extract<Part, { kind: K }>

export type Switcher = PartOf<'switcher'>
export type Core = PartOf<'core'>
export type Material = PartOf<'material'>
export type Former = PartOf<'former'>
export type Wire = PartOf<'wire'>
export type Tape = PartOf<'tape'>
export type Toroid = PartOf<'toroid'>
export type Diode = PartOf<'diode'>
export type Avalanche = PartOf<'avalanche'>
export type Bridge = PartOf<'bridge'>
export type Capacitor = PartOf<'capacitor'>
export type Ntc = PartOf<'ntc'>
export type Fuse = PartOf<'fuse'>
export type Optocoupler = PartOf<'optocoupler'>
export type Reference = PartOf<'reference'>
export type Led = PartOf<'led'>
export type Heatsink = PartOf<'heatsink'>
export type Pad = PartOf<'pad'>
export type Lamp = PartOf<'lamp'>

/** One place in a drawer: a part and how many are at hand (null: enough, not counted). */
export const drawerEntry = z.strictObject({
  part,
  quantity: z.number().min(0).max(1e6).nullable(),
})

/** Parts at hand. Ids are unique inside a drawer. */
export const drawer = z.strictObject({
  format: z.literal('gapwright-drawer'),
  version: z.literal(1),
  name: z.string().min(1).max(120),
  entries: z
    .array(drawerEntry)
    .max(5000)
    .superRefine((entries, context) => {
      const seen = new Set<string>()
      entries.forEach((entry, index) => {
        if (seen.has(entry.part.id))
          context.addIssue({
            code: 'custom',
            path: [index, 'part', 'id'],
            message: `id ${entry.part.id} is used twice`,
          })
        seen.add(entry.part.id)
      })
    }),
})

export type DrawerEntry = z.infer<typeof drawerEntry>
export type Drawer = z.infer<typeof drawer>
