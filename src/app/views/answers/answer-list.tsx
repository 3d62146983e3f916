import { closeMargin } from '../../../drawing/supply/schematic-model.ts'
import type { Offer } from '../../../engine/search/index.ts'
import { GapGauge } from '../../controls/gauge.tsx'
import { show } from '../../fields/show.ts'
import { answersStrings as words } from '../../strings/answers.ts'

const Measure = ({ name, children }: { name: string; children: string }) => (
  <div>
    <dt>{name}</dt>
    <dd>{children}</dd>
  </div>
)

const Item = ({
  offer,
  number,
  mark,
  open,
}: {
  offer: Offer
  number: number
  mark: (on: boolean) => void
  open: () => void
}) => {
  const { measures: m, limit } = offer.answer
  return (
    <li className="answer" onPointerEnter={() => mark(true)} onPointerLeave={() => mark(false)}>
      <span className="answer-number" aria-hidden="true">
        {number}
      </span>
      <div className="answer-head">
        <h3>{offer.core}</h3>
        <button
          type="button"
          className="plain"
          aria-label={words.openOf(number)}
          onFocus={() => mark(true)}
          onBlur={() => mark(false)}
          onClick={open}
        >
          {words.open}
        </button>
      </div>
      <p className="answer-difference">{offer.difference}</p>
      <p className="answer-winding">
        {offer.switcher}. {offer.winding}.
      </p>
      <dl className="answer-measures">
        <Measure name={words.loss}>{show(m.loss_W, 'W')}</Measure>
        <Measure name={words.size}>{`${m.size_cm3}\u00a0cm³`}</Measure>
        <Measure name={words.effort}>{words.steps(m.effort)}</Measure>
        <Measure name={words.margin}>{words.marginOf(m.margin_percent)}</Measure>
      </dl>
      <p className="answer-first">
        <GapGauge margin={limit.margin} state={limit.margin < closeMargin ? 'close' : 'holds'} />
        <span>{words.givesFirst(limit.title)}</span>
      </p>
      {offer.buy.length > 0 && (
        <p className="answer-buy">
          <b>{words.toBuy}:</b> {offer.buy.join('; ')}
        </p>
      )}
    </li>
  )
}

/** The answers in words, each with what makes it different. */
export const AnswerList = ({
  offers,
  mark,
  open,
}: {
  offers: readonly Offer[]
  mark: (index: number | null) => void
  open: (index: number) => void
}) => (
  <ol className="answer-list">
    {offers.map((offer, i) => (
      <Item
        key={`${offer.core} ${offer.winding} ${offer.switcher} ${offer.answer.exactLoss_W}`}
        offer={offer}
        number={i + 1}
        mark={(on) => mark(on ? i : null)}
        open={() => open(i)}
      />
    ))}
  </ol>
)
