import { closeMargin } from '../../../drawing/supply/schematic-model.ts'
import { type Limit, rankOf } from '../../../engine/limits/limit.ts'
import { showRoom, standing } from '../../state/limits.ts'
import { limitStrings as words } from '../../strings/limits.ts'

/** The scale runs from half past the rating to full room; beyond either end a limit stands at the end. */
const from = -0.5
const to = 1
const width = 1000
const x = (margin: number) => ((Math.min(Math.max(margin, from), to) - from) / (to - from)) * width
const marks = [-0.5, -0.25, 0, closeMargin, 0.25, 0.5, 0.75, 1]

/**
 * Every limit as one stroke on one scale of room: what lies left of the post is over its rating. Strokes that would
 * touch stand on top of each other.
 */
export const MarginScale = ({ limits, pick }: { limits: readonly Limit[]; pick: (id: string) => void }) => {
  const heights: number[] = []
  const strokes = limits.map((limit, at) => {
    const place = x(rankOf(limit))
    let row = 0
    for (let before = at - 1; before >= 0; before -= 1) {
      if (Math.abs(x(rankOf(limits[before]!)) - place) < 6) {
        row = (heights[before]! + 1) % 4
        break
      }
    }
    heights.push(row)
    return { limit, place, row }
  })
  const first = limits[0]
  return (
    <figure className="scale">
      <svg
        viewBox={`0 0 ${width} 46`}
        preserveAspectRatio="none"
        role="img"
        aria-label={`${words.scale}: ${limits
          .slice(0, 5)
          .map((l) => `${l.title} ${showRoom(l)}`)
          .join(', ')}`}
      >
        <rect className="scale-over" x="0" y="4" width={x(0)} height="36" />
        <rect className="scale-close" x={x(0)} y="4" width={x(closeMargin) - x(0)} height="36" />
        <line className="scale-base" x1="0" y1="40" x2={width} y2="40" />
        {marks.map((mark) => (
          <line
            key={mark}
            className="scale-mark"
            x1={x(mark)}
            x2={x(mark)}
            y1="40"
            y2={mark === 0 ? 46 : 44}
          />
        ))}
        <line className="scale-post" x1={x(0)} x2={x(0)} y1="0" y2="46" />
        {strokes.map(({ limit, place, row }) => (
          <line
            key={limit.id}
            className="scale-stroke"
            data-state={standing(limit)}
            x1={place}
            x2={place}
            y1={39 - row * 8}
            y2={32 - row * 8}
            onPointerDown={() => pick(limit.id)}
          >
            <title>
              {limit.title}: {showRoom(limit)}
            </title>
          </line>
        ))}
      </svg>
      <figcaption className="scale-words" aria-hidden="true">
        <span className="scale-zero">{words.scaleStop}</span>
        {first && <span className="scale-end">{words.scaleEnd}</span>}
      </figcaption>
    </figure>
  )
}
