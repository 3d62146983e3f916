import { useMemo, useRef } from 'react'
import { frontMap } from '../../../drawing/answers/front-map.ts'
import { answersStyle } from '../../../drawing/answers/style.ts'
import { keyOf, type Offer } from '../../../engine/search/index.ts'
import { Drawing } from '../../controls/drawing.tsx'
import { adoptStyle } from '../../controls/style.ts'
import { useWidth } from '../../controls/use-width.ts'
import { show } from '../../fields/show.ts'
import { answersStrings as words } from '../../strings/answers.ts'
import type { Offers } from './messages.ts'

/** Margin at which the ring of a point is closed, percent. */
const fullRing_percent = 25

const spoken = ({ core, switcher, answer: { measures: m } }: Offer): string =>
  `${core}, ${switcher}: ${show(m.loss_W, 'W')}, ${m.size_cm3} cm³, ${words.margin.toLowerCase()} ${words.marginOf(m.margin_percent)}`

/** Answers by loss and size; each numbered point opens. */
export const FrontFigure = ({
  offers,
  marked,
  open,
}: {
  offers: Offers
  marked: number | null
  open: (index: number) => void
}) => {
  adoptStyle(answersStyle)
  const frame = useRef<HTMLDivElement>(null)
  const width = useWidth(frame)
  const node = useMemo(() => {
    const shown = new Set(offers.offers.map(({ answer }) => keyOf(answer.build)))
    const others = offers.all.filter(({ build }) => !shown.has(keyOf(build)))
    return frontMap({
      width,
      title: words.mapTitle(offers.offers.length),
      lossName: words.mapLoss,
      sizeName: words.mapSize,
      points: [
        ...others.map(({ measures }) => ({
          number: null,
          loss_W: measures.loss_W,
          size_cm3: measures.size_cm3,
          margin: 0,
          words: '',
          marked: false,
        })),
        ...offers.offers.map((offer, i) => ({
          number: i + 1,
          loss_W: offer.answer.measures.loss_W,
          size_cm3: offer.answer.measures.size_cm3,
          margin: offer.answer.measures.margin_percent / fullRing_percent,
          words: spoken(offer),
          marked: marked === i,
        })),
      ],
    })
  }, [offers, marked, width])
  return (
    <figure className="answers-map">
      <div ref={frame}>
        <Drawing node={node} pick={(spot) => open(Number(spot) - 1)} />
      </div>
      <figcaption>{words.mapMeans}</figcaption>
    </figure>
  )
}
