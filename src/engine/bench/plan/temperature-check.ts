import type { Design } from '../../supply/design.ts'
import { at } from '../../supply/evaluation.ts'
import {
  clampMost_C,
  rectifierCaseMost_C,
  switcherCaseMost_C,
  transformerSurfaceMost_C,
} from '../../supply/heat-stops.ts'
import type { Readings } from '../../supply/reading.ts'
import { type CheckSpec, number } from './spec.ts'
import { live } from './ways.ts'

/** Hottest that a thermometer may read at full load: from the parts' own limits, as the ranked limits count it. */
const hottest_C: Readonly<Record<'switcher' | 'rectifier' | 'transformer' | 'clamp', Most>> = {
  switcher: switcherCaseMost_C,
  rectifier: rectifierCaseMost_C,
  transformer: transformerSurfaceMost_C,
  clamp: clampMost_C,
}
type Most = (d: Design, r: Readings) => number

/** How hot a part gets; stops where its own limit would be passed. */
export const temperature = (
  id: string,
  what: string,
  part: keyof typeof hottest_C,
  more: { readonly spot?: CheckSpec['spot']; readonly applies?: CheckSpec['applies'] } = {},
) =>
  number(id, what, 'C', 0.1, 8, {
    spot: part === 'clamp' ? 'clampResistor' : part,
    side: part === 'rectifier' ? 'secondary' : 'primary',
    live: true,
    ways: part === 'transformer' ? [...live.heat, ...live.copperHeat] : live.heat,
    risk: 'Heat is met by smell.',
    low: 'No matter.',
    high: 'More loss or less cooling than planned.',
    oneSided: 'at most',
    why: 'losses and cooling ±20 % of the rise',
    stop: ({ evaluation }) => {
      const full = at(evaluation, 'nominal-100')
      if (full === null) return { below: null, above: null, text: 'Too hot to hold a hand near: off.' }
      const above = Math.round(hottest_C[part](evaluation.design, full.readings))
      return { below: null, above, text: `Above ${above} °C: off.` }
    },
    ...more,
  })
