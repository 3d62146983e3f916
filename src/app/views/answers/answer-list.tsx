import type { Offer } from '../../../engine/search/index.ts'
import { GapGauge } from '../../controls/gauge.tsx'
import { show } from '../../fields/show.ts'
import { answersStrings as words } from '../../strings/answers.ts'

const close = 0.1

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
      <div className="answer-body">
        <h3>
          {offer.core} <small>{offer.switcher}</small>
        </h3>
        <p className="answer-difference">{offer.difference}</p>
        <p className="answer-winding">{offer.winding}</p>
        <dl className="answer-measures">
          <Measure name={words.loss}>{show(m.loss_W, 'W')}</Measure>
          <Measure name={words.size}>{`${m.size_cm3} cm³`}</Measure>
          <Measure name={words.effort}>{words.steps(m.effort)}</Measure>
          <Measure name={words.margin}>{`${m.margin_percent} %, ${limit.title.toLowerCase()}`}</Measure>
        </dl>
        <GapGauge margin={limit.margin} state={limit.margin < close ? 'close' : 'holds'} />
        {offer.buy.length > 0 && (
          <p className="answer-buy">
            <b>{words.toBuy}:</b> {offer.buy.join(', ')}
          </p>
        )}
        <button type="button" className="plain" aria-label={words.openOf(number)} onClick={open}>
          {words.open}
        </button>
      </div>
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
