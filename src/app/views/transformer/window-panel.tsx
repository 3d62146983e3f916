import { memo, type PointerEvent, useMemo, useState } from 'react'
import { type MapPlace, mapPlace, windowMap } from '../../../drawing/field/window-map.ts'
import { sectionModel } from '../../../drawing/supply/section-model.ts'
import type { FieldMap } from '../../../engine/magnetics/field/index.ts'
import type { Design } from '../../../engine/supply/design.ts'
import { type Moment, moments } from '../../../engine/supply/transformer/index.ts'
import { Drawing } from '../../controls/drawing.tsx'
import { show, showPercent } from '../../fields/show.ts'
import { transformerStrings } from '../../strings/transformer.ts'
import { heatWords, type LayerRow, layerBars, layerRows } from './heat-words.ts'
import type { Fields } from './use-fields.ts'
import { useNarrow } from './use-narrow.ts'

const words = transformerStrings

type Shown = Moment | 'none'

/** Flux density at a place of the window, from the nearest point of the map; null outside it. */
const fieldAt = (map: FieldMap, up_m: number, along_m: number) => {
  const { columns, rows, x_m, z_m } = map
  const nearest = (list: Float64Array, value: number): number => {
    const step = list[1]! - list[0]!
    return Math.round((value - list[0]!) / step)
  }
  const [c, r] = [nearest(x_m, up_m), nearest(z_m, along_m)]
  if (c < 0 || c >= columns || r < 0 || r >= rows) return null
  return { axial_T: map.axial_T[c * rows + r]!, radial_T: map.radial_T[c * rows + r]! }
}

/** Place of the pointer in the window, from the drawing's own units. */
const placeOf = (event: PointerEvent, place: MapPlace) => {
  const svg = (event.currentTarget as HTMLElement).querySelector<SVGSVGElement>('svg.window-map')
  const matrix = svg?.getScreenCTM()
  if (!svg || !matrix) return null
  const point = new DOMPoint(event.clientX, event.clientY).matrixTransform(matrix.inverse())
  return {
    up_m: (place.y0 - point.y) / place.scale,
    along_m: (point.x - place.x0) / place.scale - place.width_m / 2,
  }
}

const MomentChoice = ({ value, choose }: { value: Shown; choose: (moment: Shown) => void }) => (
  <fieldset className="choices">
    <legend className="unseen">{words.map.moment}</legend>
    {([...moments, 'none'] as const).map((moment) => (
      <button
        key={moment}
        type="button"
        className="plate-cell"
        aria-pressed={moment === value}
        onClick={() => choose(moment)}
      >
        {words.map.moments[moment]}
      </button>
    ))}
  </fieldset>
)

const HeatTable = ({
  rows,
  fields,
  marked,
  mark,
}: {
  rows: readonly LayerRow[]
  fields: Fields
  marked: number | null
  mark: (layer: number | null) => void
}) => {
  const { answer } = fields
  if (answer === null) return null
  const all_W = answer.copper.total_W + answer.core.total_W
  return (
    <table className="budget layer-heat">
      <caption>{words.layers.title}</caption>
      <thead>
        <tr>
          <th scope="col">{words.layers.layer}</th>
          <th scope="col">{words.layers.turns}</th>
          <th scope="col">{words.layers.dc}</th>
          <th scope="col">{words.layers.ac}</th>
          <th scope="col">{words.layers.all}</th>
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr
            key={row.layer}
            data-marked={row.layer === marked || undefined}
            onPointerEnter={() => mark(row.layer)}
            onPointerLeave={() => mark(null)}
          >
            <th scope="row">
              <button
                type="button"
                className="layer-name"
                aria-pressed={row.layer === marked}
                onFocus={() => mark(row.layer)}
                onBlur={() => mark(null)}
                onClick={() => mark(row.layer)}
              >
                <b>{row.layer}</b> {row.name}
              </button>
            </th>
            <td>{row.turns}</td>
            <td>{show(row.dc_W, 'W', 2)}</td>
            <td>{show(row.ac_W, 'W', 2)}</td>
            <td>{show(row.dc_W + row.ac_W, 'W')}</td>
          </tr>
        ))}
      </tbody>
      <tfoot>
        <tr>
          <th scope="row">{words.leads}</th>
          <td colSpan={3} />
          <td>{show(answer.copper.tails_W, 'W', 2)}</td>
        </tr>
        <tr>
          <th scope="row">{words.layers.sum}</th>
          <td colSpan={2} />
          <td>{showPercent(answer.copper.total_W / all_W)}</td>
          <td>{show(answer.copper.total_W, 'W')}</td>
        </tr>
        <tr>
          <th scope="row">{words.layers.iron}</th>
          <td colSpan={2} />
          <td>{showPercent(answer.core.total_W / all_W)}</td>
          <td>{show(answer.core.total_W, 'W')}</td>
        </tr>
      </tfoot>
    </table>
  )
}

/** Section of the window with its field and the heat of every layer, and the same in numbers. */
export const WindowPanel = memo(({ design, fields }: { design: Design; fields: Fields }) => {
  const [shown, setShown] = useState<Shown>('on')
  const [marked, setMarked] = useState<number | null>(null)
  const compact = useNarrow()
  const [there, setThere] = useState<string | null>(null)
  const { transformer, supply } = design
  const { layout } = transformer.coil
  const section = useMemo(
    () =>
      sectionModel(
        layout,
        { place: transformer.gapPlace, length_m: transformer.gap_m },
        words.map.title(supply.name),
      ),
    [layout, transformer.gapPlace, transformer.gap_m, supply.name],
  )
  const current = fields.answer?.copper.layers.every((heat) => heat.layer < layout.layers.length)
    ? fields.answer
    : null
  const rows = useMemo(() => (current ? layerRows(layout, current.copper) : []), [layout, current])
  const map = shown === 'none' ? null : (fields.maps?.[shown] ?? null)
  const grid = useMemo(
    () =>
      map === null
        ? null
        : {
            columns: map.x_m,
            rows: map.z_m,
            values: map.axial_T.map((axial, i) => Math.hypot(axial, map.radial_T[i]!)),
          },
    [map],
  )
  const node = useMemo(
    () =>
      windowMap({
        section,
        field: grid === null || shown === 'none' ? null : { grid, name: words.map.names[shown] },
        bars: layerBars(rows),
        marked,
        compact,
      }),
    [section, grid, shown, rows, marked, compact],
  )
  const place = mapPlace(section)
  const follow = (event: PointerEvent) => {
    const layer = (event.target as Element).closest<SVGElement>('[data-layer]')?.dataset.layer
    setMarked(layer === undefined ? null : Number(layer))
    const at = map === null ? null : placeOf(event, place)
    const field = at === null || map === null ? null : fieldAt(map, at.up_m, at.along_m)
    setThere(
      at === null || field === null
        ? null
        : words.map.point(
            show(field.axial_T, 'T'),
            show(field.radial_T, 'T'),
            show(Math.hypot(field.axial_T, field.radial_T), 'T'),
            show(at.up_m, 'm'),
            show(at.along_m, 'm'),
          ),
    )
  }
  const row = rows.find(({ layer }) => layer === marked)
  return (
    <section className="window-panel">
      <figure>
        <MomentChoice value={shown} choose={setShown} />
        <div
          className="window-map-hold"
          data-stale={!fields.complete || undefined}
          onPointerMove={follow}
          onPointerLeave={() => {
            setMarked(null)
            setThere(null)
          }}
        >
          <Drawing node={node} />
        </div>
        <p className="read-out" aria-live="off">
          {row ? `${row.layer} ${row.name}: ${heatWords(row)}. ` : ''}
          {there ?? (row ? '' : words.map.hover)}
        </p>
        <figcaption>{words.map.caption}</figcaption>
      </figure>
      <HeatTable rows={rows} fields={fields} marked={marked} mark={setMarked} />
    </section>
  )
})
