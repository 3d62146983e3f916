import { formatQuantity } from '../../quantity/index.ts'
import type { Space } from '../space/space.ts'
import type { SearchState } from '../step.ts'
import { offersOf } from './offer.ts'
import { type Chosen, chooseProved } from './proved.ts'
import type { WhyNot } from './why-not.ts'
import { listText } from './words.ts'

/** How the space was gone through, and how good that makes the answer. */
export function thoroughness(space: Space, { counts, done, proposed }: SearchState): string {
  const all = counts.pruned + counts.decided
  const gone = done
    ? 'Every core with a former and every chip was tried'
    : 'The search was stopped before every core and chip had been tried'
  const stepped = `reflected voltage in ${space.options.grid.reflected_V.length} steps and ripple in ${space.options.grid.ripples.length}, so that a supply between the steps may be a few per cent better`
  const short =
    space.shortened.length > 0
      ? ` Of ${listText(space.shortened)} only those that suit the current best were tried.`
      : ' Every wire and rectifier that can do was tried.'
  const between = proposed
    ? ' No candidate held on the solved circuit too; the answer lies between the steps, and was found by mending a first proposal for the need.'
    : ''
  return `${gone}, ${all} candidates: ${counts.pruned} ruled out together by bounds, ${counts.decided} one by one, ${counts.assessed} assessed as a whole. Turns and gap are stepped: ${stepped}.${short}${between}`
}

/** Answers that the solved circuit refused, in a sentence; empty where there are none. */
export const refusedText = ({ refused }: Chosen): string =>
  refused.length === 0
    ? ''
    : `${refused.length} more held in closed form and not on the solved circuit: ${listText([...new Set(refused.map(({ limit }) => limit.title.toLowerCase()))])}.`

/** The answers of a search as plain text, for a terminal; those shown are proved on the solved circuit. */
export function answersText(space: Space, state: SearchState, reasons: readonly WhyNot[], most = 9): string {
  const { need } = space
  const chosen = chooseProved(space, state.front, most)
  const offers = offersOf(space, chosen.answers)
  const count = state.front.length - chosen.refused.length
  const head = `${formatQuantity(need.output_V, 'V')} ${formatQuantity(need.output_A, 'A')} from the drawer: ${count === 0 ? 'no answer' : `${count} ${count === 1 ? 'supply' : 'supplies'} that nothing outdoes${count > offers.length ? `, ${offers.length} of them shown` : ''}`}.`
  const rows = offers.flatMap((offer, i) => {
    const { measures: m, limit } = offer.answer
    return [
      `${i + 1}. ${offer.core}, ${offer.switcher}`,
      `   ${offer.winding}`,
      `   loss ${m.loss_W.toFixed(2)} W at the lowest input, ${m.size_cm3} cm³, margin ${m.margin_percent < 1 ? 'under 1' : m.margin_percent} % (${limit.title}), winding ${m.effort} steps`,
      `   ${offer.difference}`,
      ...(offer.buy.length > 0 ? [`   To buy: ${listText(offer.buy)}`] : []),
    ]
  })
  const why = reasons.length > 0 ? ['Why not', ...reasons.map((r) => `  ${r.sentence}`)] : []
  const left = refusedText(chosen)
  return [
    head,
    thoroughness(space, state),
    ...(left === '' ? [] : [left]),
    '',
    ...rows,
    ...(rows.length > 0 ? [''] : []),
    ...why,
  ].join('\n')
}
