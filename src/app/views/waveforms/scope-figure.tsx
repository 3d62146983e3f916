import {
  type KeyboardEvent,
  memo,
  type PointerEvent,
  useEffect,
  useId,
  useMemo,
  useRef,
  useState,
} from 'react'
import { loopStyle } from '../../../drawing/loop/style.ts'
import { scope, scopeHeight, scopeTime } from '../../../drawing/waveforms/scope.ts'
import { scopeStyle } from '../../../drawing/waveforms/style.ts'
import { Drawing } from '../../controls/drawing.tsx'
import { adoptStyle } from '../../controls/style.ts'
import { useWidth } from '../../controls/use-width.ts'
import { show } from '../../fields/show.ts'
import { waveformStrings } from '../../strings/waveforms.ts'
import { type ReadLane, readingsAt } from './read-lane.ts'
import { ScopeReadout } from './scope-readout.tsx'

const words = waveformStrings.figure

interface Span {
  readonly from: number
  readonly to: number
}

/** A zoom shows at least this part of the whole. */
const closest = 1 / 2000

const within = (span: Span, whole: Span): Span => {
  const width = Math.min(
    whole.to - whole.from,
    Math.max(closest * (whole.to - whole.from), span.to - span.from),
  )
  const from = Math.min(whole.to - width, Math.max(whole.from, span.from))
  return { from, to: from + width }
}

const zoomed = (span: Span, at: number, factor: number, whole: Span): Span =>
  within({ from: at - (at - span.from) * factor, to: at + (span.to - at) * factor }, whole)

/** Waveforms on one axis of time with cursor, reference and zoom, by pointer and by keys. */
export const ScopeFigure = memo(
  ({
    title,
    from_s,
    to_s,
    lanes,
    marks,
    summary,
  }: {
    title: string
    from_s: number
    to_s: number
    lanes: readonly ReadLane[]
    marks?: readonly { readonly time_s: number; readonly words: string }[]
    /** What the picture shows, in words. */
    summary?: string
  }) => {
    adoptStyle(loopStyle)
    adoptStyle(scopeStyle)
    const id = useId()
    const figure = useRef<HTMLElement>(null)
    const width = useWidth(figure)
    const whole = useMemo(() => ({ from: from_s, to: to_s }), [from_s, to_s])
    const [span, setSpan] = useState<Span>(whole)
    const [cursor, setCursor] = useState<number>(from_s + 0.25 * (to_s - from_s))
    const [reference, setReference] = useState<number | null>(null)
    const [drag, setDrag] = useState<{ readonly start: number; readonly end: number } | null>(null)
    const face = useRef<SVGSVGElement>(null)
    useEffect(() => {
      setSpan(whole)
      setCursor((now) =>
        now >= whole.from && now <= whole.to ? now : whole.from + 0.25 * (whole.to - whole.from),
      )
      setReference(null)
    }, [whole])
    const time = useMemo(() => {
      const unit = (value: number) => show(Math.abs(value) < 1e-15 ? 0 : value, 's', 4)
      return unit
    }, [])
    const model = useMemo(
      () => ({
        id: id.replace(/[^a-z0-9]/gi, ''),
        title: summary ? `${title}. ${summary}` : title,
        from_s: span.from,
        to_s: span.to,
        lanes,
        showTime: (value: number) => show(Math.abs(value) < 1e-15 ? 0 : value, 's'),
        marks: marks ?? [],
        width,
      }),
      [id, title, summary, span, lanes, marks, width],
    )
    const node = useMemo(() => scope(model), [model])
    const axis = scopeTime(model)
    const height = scopeHeight(lanes.length)

    const timeAt = (event: PointerEvent): number => {
      const box = face.current!.getBoundingClientRect()
      const left = axis.at(span.from)
      const x = ((event.clientX - box.left) / box.width) * width
      const share = (x - left) / (axis.at(span.to) - left)
      return Math.min(span.to, Math.max(span.from, span.from + share * (span.to - span.from)))
    }
    const zoomBy = (factor: number, at = cursor) => setSpan((now) => zoomed(now, at, factor, whole))
    const showAll = () => setSpan(whole)

    const press = (event: KeyboardEvent) => {
      const step = (event.shiftKey ? 0.001 : 0.01) * (span.to - span.from)
      const move = (by: number) => {
        const at = Math.min(whole.to, Math.max(whole.from, cursor + by))
        setCursor(at)
        if (at < span.from || at > span.to)
          setSpan((now) => within({ from: now.from + by * 20, to: now.to + by * 20 }, whole))
      }
      if (event.ctrlKey || event.metaKey || event.altKey) return
      switch (event.key) {
        case 'ArrowLeft':
          move(-step)
          break
        case 'ArrowRight':
          move(step)
          break
        case '+':
        case '=':
          zoomBy(0.5)
          break
        case '-':
          zoomBy(2)
          break
        case '0':
          showAll()
          break
        case 'r':
        case 'R':
          setReference((now) => (now === null ? cursor : null))
          break
        default:
          return
      }
      event.preventDefault()
      event.stopPropagation()
    }

    const line = (at: number, name: string) =>
      at >= span.from && at <= span.to ? (
        <line className={name} x1={axis.at(at)} x2={axis.at(at)} y1={6} y2={height - 22} />
      ) : null

    return (
      <figure className="scope-figure" ref={figure}>
        <div className="scope-tools">
          <button type="button" className="plain" onClick={() => zoomBy(0.5)}>
            {words.zoomIn}
          </button>
          <button
            type="button"
            className="plain"
            onClick={() => zoomBy(2)}
            disabled={span.to - span.from >= whole.to - whole.from}
          >
            {words.zoomOut}
          </button>
          <button type="button" className="plain" onClick={showAll}>
            {words.all}
          </button>
          <button
            type="button"
            className="plain"
            onClick={() => setReference(reference === null ? cursor : null)}
          >
            {reference === null ? words.setReference : words.clearReference}
          </button>
        </div>
        <div
          className="scope-screen"
          role="slider"
          tabIndex={0}
          aria-label={`${words.cursor}: ${title}`}
          aria-valuemin={from_s}
          aria-valuemax={to_s}
          aria-valuenow={cursor}
          aria-valuetext={`${time(cursor)}: ${lanes
            .map((lane, i) => `${lane.heading} ${lane.read(readingsAt(lanes, cursor)[i]!)}`)
            .join(', ')}`}
          aria-describedby={`${id}-help`}
          onKeyDown={press}
        >
          <Drawing node={node} />
          <svg
            ref={face}
            className="scope-face"
            viewBox={`0 0 ${width} ${height}`}
            aria-hidden="true"
            onPointerDown={(event) => {
              event.currentTarget.setPointerCapture(event.pointerId)
              const at = timeAt(event)
              setCursor(at)
              setDrag({ start: at, end: at })
            }}
            onPointerMove={(event) => {
              const at = timeAt(event)
              if (drag) setDrag({ ...drag, end: at })
              else if (event.pointerType === 'mouse') setCursor(at)
            }}
            onPointerUp={() => {
              if (drag && Math.abs(drag.end - drag.start) > 0.02 * (span.to - span.from))
                setSpan(
                  within({ from: Math.min(drag.start, drag.end), to: Math.max(drag.start, drag.end) }, whole),
                )
              setDrag(null)
            }}
            onPointerCancel={() => setDrag(null)}
            onDoubleClick={showAll}
          >
            {drag && (
              <rect
                className="scope-drag"
                x={Math.min(axis.at(drag.start), axis.at(drag.end))}
                width={Math.abs(axis.at(drag.end) - axis.at(drag.start))}
                y={6}
                height={height - 28}
              />
            )}
            {reference !== null && line(reference, 'scope-reference')}
            {line(cursor, 'scope-cursor')}
          </svg>
        </div>
        <p className="scope-help" id={`${id}-help`}>
          {words.cursorHelp}
        </p>
        <ScopeReadout lanes={lanes} cursor={cursor} reference={reference} time={time} />
      </figure>
    )
  },
)
