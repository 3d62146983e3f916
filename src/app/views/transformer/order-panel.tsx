import { type KeyboardEvent, type PointerEvent, useRef, useState } from 'react'
import type { StackItem } from '../../../engine/supply/build.ts'
import type { Design } from '../../../engine/supply/design.ts'
import {
  changeWinding,
  joinWinding,
  moveItem,
  partsBeside,
  placedItems,
  setTape,
  splitWinding,
} from '../../../engine/supply/transformer/index.ts'
import { sectionNames } from '../../../engine/supply/transformer/section-names.ts'
import { transformerStrings } from '../../strings/transformer.ts'

const words = transformerStrings.order

type Stack = readonly StackItem[]

/** What each place of a stack is called: P1, S, B, and shields by their pin. */
const namesOf = (stack: Stack): string[] => {
  const items = placedItems(stack).map(({ item }) => item)
  const short = sectionNames(items.filter((item) => item.kind === 'winding'))
  let next = 0
  return items.map((item) => (item.kind === 'winding' ? short[next++]! : transformerStrings.windings.shield))
}

/** The pin of one end; a joint between two parts may also lie on none. */
const Pins = ({
  value,
  label,
  rows,
  joint,
  choose,
}: {
  value: number | null
  label: string
  rows: number
  joint: boolean
  choose: (pin: number | null) => void
}) => (
  <select
    aria-label={label}
    value={value ?? ''}
    onChange={(event) => choose(event.target.value === '' ? null : Number(event.target.value))}
  >
    {joint && <option value="">{words.noPin}</option>}
    {Array.from({ length: rows }, (_, i) => i + 1).map((pin) => (
      <option key={pin}>{pin}</option>
    ))}
  </select>
)

/** The place of the row under the pointer, or null. */
const placeUnder = (event: PointerEvent): number | null => {
  const row = document.elementFromPoint(event.clientX, event.clientY)?.closest<HTMLElement>('[data-place]')
  return row?.dataset.place === undefined ? null : Number(row.dataset.place)
}

/**
 * The stack from the former outward. `preview` shows an order while it is dragged, `commit` keeps one; null gives the
 * choice back to the tool.
 */
export const OrderPanel = ({
  design,
  stack,
  preview,
  commit,
  chosen,
}: {
  design: Design
  stack: Stack
  preview: (stack: Stack | null) => void
  commit: (stack: Stack | null, what: string) => void
  chosen: boolean
}) => {
  const drag = useRef<{ from: number; at: number; stack: Stack } | null>(null)
  const [dragged, setDragged] = useState<number | null>(null)
  const [said, setSaid] = useState('')
  const list = useRef<HTMLOListElement>(null)
  const rule = design.supply.build.transformer
  const { former } = design.parts
  const items = placedItems(stack)
  const names = namesOf(stack)
  const pins = former.rowOne + former.rowTwo
  const hand = {
    primary: design.transformer.primaryInHand,
    secondary: design.transformer.secondaryInHand,
    bias: design.transformer.biasInHand,
  }

  const moveBy = (place: number, by: number) => {
    const to = place + by
    const next = moveItem(stack, place, to, rule)
    if (next === stack) return
    commit(next, words.moving(names[place]!))
    setSaid(words.moved(names[place]!, to + 1, items.length))
    requestAnimationFrame(() =>
      list.current?.querySelectorAll<HTMLElement>('.order-handle')[to]?.focus({ preventScroll: true }),
    )
  }
  const press = (event: KeyboardEvent, place: number) => {
    if (event.key !== 'ArrowUp' && event.key !== 'ArrowDown') return
    event.preventDefault()
    moveBy(place, event.key === 'ArrowUp' ? -1 : 1)
  }
  const begin = (event: PointerEvent, place: number) => {
    if (event.button !== 0) return
    event.preventDefault()
    ;(event.currentTarget as HTMLElement).focus()
    ;(event.currentTarget as HTMLElement).setPointerCapture(event.pointerId)
    drag.current = { from: place, at: place, stack }
    setDragged(place)
  }
  const move = (event: PointerEvent) => {
    const now = drag.current
    if (now === null) return
    const place = placeUnder(event)
    if (place === null || place === now.at) return
    now.at = place
    setDragged(place)
    preview(moveItem(now.stack, now.from, place, rule))
  }
  const end = (kept: boolean) => {
    const now = drag.current
    drag.current = null
    setDragged(null)
    if (now === null) return
    const next = moveItem(now.stack, now.from, now.at, rule)
    if (kept && next !== now.stack) {
      const name = namesOf(now.stack)[now.from]!
      commit(next, words.moving(name))
      setSaid(words.moved(name, now.at + 1, items.length))
    } else preview(null)
  }

  return (
    <section className="order">
      <h3>{words.title}</h3>
      <p className="lead">{words.lead}</p>
      <ol className="order-list" ref={list}>
        {items.map(({ item, over }, place) => {
          const name = names[place]!
          const halves = splitWinding(stack, place, former)
          const joined = joinWinding(stack, place)
          const beside = partsBeside(stack, place)
          return (
            // biome-ignore lint/suspicious/noArrayIndexKey: a place is what the row stands for
            <li key={place} data-place={place} data-dragged={place === dragged || undefined}>
              <button
                type="button"
                className={`order-handle of-${item.kind === 'winding' ? item.winding : 'none'}`}
                aria-label={words.move(name, place + 1, items.length)}
                onKeyDown={(event) => press(event, place)}
                onPointerDown={(event) => begin(event, place)}
                onPointerMove={move}
                onPointerUp={() => end(true)}
                onPointerCancel={() => end(false)}
              >
                <svg className="order-grip" viewBox="0 0 8 14" aria-hidden="true">
                  <path d="M2 2h.01M6 2h.01M2 7h.01M6 7h.01M2 12h.01M6 12h.01" />
                </svg>
                <b>{name}</b>
                <span>
                  {item.kind === 'winding'
                    ? `${words.turns(item.turns)}${hand[item.winding] > 1 ? `, ${words.inHand(hand[item.winding])}` : ''}`
                    : ''}
                </span>
              </button>
              {item.kind === 'winding' && (
                <div className="order-more">
                  <select
                    aria-label={words.direction(name)}
                    value={item.direction}
                    onChange={(event) =>
                      commit(
                        changeWinding(stack, place, {
                          direction: event.target.value as typeof item.direction,
                        }),
                        words.direction(name),
                      )
                    }
                  >
                    {(['clockwise', 'counter-clockwise'] as const).map((direction) => (
                      <option key={direction} value={direction}>
                        {words.directions[direction]}
                      </option>
                    ))}
                  </select>
                  <span className="order-pins">
                    <Pins
                      value={item.startPin}
                      label={words.start(name)}
                      rows={pins}
                      joint={beside.before !== undefined}
                      choose={(startPin) =>
                        commit(changeWinding(stack, place, { startPin }), words.start(name))
                      }
                    />
                    {words.to}
                    <Pins
                      value={item.finishPin}
                      label={words.finish(name)}
                      rows={pins}
                      joint={beside.after !== undefined}
                      choose={(finishPin) =>
                        commit(changeWinding(stack, place, { finishPin }), words.finish(name))
                      }
                    />
                  </span>
                  {joined ? (
                    <button
                      type="button"
                      className="plain"
                      aria-label={words.joinOf(name)}
                      onClick={() => commit(joined, words.joinOf(name))}
                    >
                      {words.join}
                    </button>
                  ) : (
                    <button
                      type="button"
                      className="plain"
                      disabled={halves === null}
                      aria-label={words.splitOf(name)}
                      onClick={() => halves && commit(halves, words.splitOf(name))}
                    >
                      {words.split}
                    </button>
                  )}
                </div>
              )}
              <fieldset className="count order-tape" aria-label={words.tape(name)}>
                <button
                  type="button"
                  aria-label={words.less(name)}
                  disabled={over === 0}
                  onClick={() => commit(setTape(stack, place, over - 1), words.tape(name))}
                >
                  −
                </button>
                <output>{over}</output>
                <button
                  type="button"
                  aria-label={words.more(name)}
                  disabled={over >= 20}
                  onClick={() => commit(setTape(stack, place, over + 1), words.tape(name))}
                >
                  +
                </button>
                <span className="order-tape-word">{words.tapeShort}</span>
              </fieldset>
            </li>
          )
        })}
      </ol>
      <p className="order-chosen">
        {chosen ? words.chosen : words.fixed}{' '}
        {!chosen && (
          <button type="button" className="plain" onClick={() => commit(null, words.stackChosen)}>
            {words.choose}
          </button>
        )}
      </p>
      <p className="unseen" role="status">
        {said}
      </p>
    </section>
  )
}
