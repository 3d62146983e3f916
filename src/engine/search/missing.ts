import type { Capacitor, Drawer, PartKind } from '../parts/part.ts'
import type { Need } from '../supply/need.ts'
import type { Problem } from '../supply/result.ts'
import { held } from './pick.ts'
import { sizing } from './sizing.ts'

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

/** Smaller capacitors hold no half period of even a watt. */
const leastBulk_F = 1e-6

/** Whether a capacitor is of the sort that stands behind the bridge, whatever its voltage. */
export const mayBeBulk = ({ safetyClass, technology, capacitance_F }: Capacitor): boolean =>
  !safetyClass && (technology === 'electrolytic' || technology === 'film') && capacitance_F >= leastBulk_F

/** What a drawer lacks before any supply for a need can be built from it. */
export function missingKinds(drawer: Drawer, need: Need): Problem[] {
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
  return [...problems, ...missingAtInput(drawer, need)]
}

/** What the input side lacks: no supply is put on the mains without a bridge, a fuse and a capacitor that stands the crest. */
function missingAtInput(drawer: Drawer, need: Need): Problem[] {
  const { mains, crest_V } = sizing(need)
  const problems: Problem[] = []
  if (mains && held(drawer, 'bridge').length === 0)
    problems.push({ path: 'drawer.bridge', message: lacks('a bridge rectifier') })
  if (!held(drawer, 'fuse').some(({ speed }) => speed === 'slow'))
    problems.push({ path: 'drawer.fuse', message: lacks('a slow fuse') })
  const capacitors = held(drawer, 'capacitor')
  if (capacitors.length > 0 && !capacitors.some((c) => mayBeBulk(c) && c.voltage_V >= crest_V))
    problems.push({
      path: 'drawer.capacitor',
      message: `the drawer holds no bulk capacitor, an electrolytic of 1 µF or more for at least ${Math.ceil(crest_V)} V: add one`,
    })
  return problems
}
