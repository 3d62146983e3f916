import type { Drawer, PartKind } from '../parts/part.ts'
import type { Problem } from '../supply/result.ts'
import { held } from './pick.ts'

/** Kinds without which there is no supply. */
const needed: readonly (readonly [PartKind, string])[] = [
  ['switcher', 'a switcher chip'],
  ['core', 'a ferrite core'],
  ['material', 'a ferrite material'],
  ['former', 'a former for a core'],
  ['wire', 'winding wire'],
  ['tape', 'tape'],
  ['diode', 'diodes'],
  ['capacitor', 'capacitors'],
  ['optocoupler', 'an optocoupler'],
  ['reference', 'a shunt reference'],
]

const lacks = (what: string): string =>
  `the drawer holds no ${what.replace(/^an? /, '')}: add ${/^an? /.test(what) ? 'one' : 'some'}`

/** What a drawer lacks before any supply can be built from it. */
export function missingKinds(drawer: Drawer): Problem[] {
  const problems: Problem[] = needed.flatMap(([kind, what]) =>
    held(drawer, kind).length > 0 ? [] : [{ path: `drawer.${kind}`, message: lacks(what) }],
  )
  const cores = held(drawer, 'core')
  const formers = held(drawer, 'former')
  if (
    cores.length > 0 &&
    formers.length > 0 &&
    !formers.some((f) => cores.some((c) => f.fits.includes(c.size)))
  )
    problems.push({
      path: 'drawer.former',
      message: 'no former of the drawer fits one of its cores: add one that does',
    })
  return problems
}
