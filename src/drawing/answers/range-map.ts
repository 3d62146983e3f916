import { ticks } from '../field/axis.ts'
import { el, group, type SvgNode } from '../svg/node.ts'
import { label } from '../svg/path.ts'
import { namePlace, type Region, regionsOf } from './regions.ts'

export interface RangeMapModel {
  /** Width in CSS pixels, so that letters keep their size. */
  readonly width: number
  readonly title: string
  readonly voltName: string
  readonly ampName: string
  readonly volts: readonly number[]
  readonly amps: readonly number[]
  /** Row by row from the least current. */
  readonly cells: readonly {
    readonly verdict: 'divider' | 'parts' | 'none'
    readonly limit: string | null
  }[]
  /** Numbers of the limits that bind, as the legend beside the map has them. */
  readonly numbers: ReadonlyMap<string, number>
  /** What the supply is built for, and what is asked about now. */
  readonly here: Output
  readonly asked: Output | null
}

interface Output {
  readonly output_V: number
  readonly output_A: number
}

const left = 38
const right = 10
const top = 24
const bottom = 40
/** Room that a line of a name takes; letters of 13 px are about this wide on average. */
const line_px = 15
const letter_px = 6.3

/** Middle of a cell, and its edges, for a map of some width. */
function frameOf({ width, volts, amps }: RangeMapModel) {
  const height = Math.round(Math.min(420, Math.max(280, 0.62 * width)))
  const columns = volts.length
  const w = (width - left - right) / columns
  const h = (height - top - bottom) / amps.length
  const place = (value: number, all: readonly number[]) => (value - all[0]!) / (all.at(-1)! - all[0]!)
  return {
    height,
    w,
    h,
    x: (i: number) => left + (i % columns) * w,
    y: (i: number) => height - bottom - (Math.floor(i / columns) + 1) * h,
    px: (value: number) => left + w / 2 + place(value, volts) * (width - left - right - w),
    py: (value: number) => height - bottom - h / 2 - place(value, amps) * (height - top - bottom - h),
  }
}
type Frame = ReturnType<typeof frameOf>

/** Lines between cells that are bound by different limits or serve differently. */
function borders(model: RangeMapModel, kinds: readonly string[], { x, y, w, h }: Frame): string {
  const columns = model.volts.length
  return kinds
    .map((kind, i) => {
      const beside = i % columns < columns - 1 && kinds[i + 1] !== kind
      const above = i + columns < kinds.length && kinds[i + columns] !== kind
      const at = (value: number) => value.toFixed(1)
      return `${beside ? `M${at(x(i) + w)} ${at(y(i))}v${at(h)}` : ''}${above ? `M${at(x(i))} ${at(y(i))}h${at(w)}` : ''}`
    })
    .join('')
}

/** Number of a limit in its region, with its name under it where there is room. */
function regionMark(model: RangeMapModel, { limit, cells }: Region, named: boolean, f: Frame): SvgNode {
  const columns = model.volts.length
  const { lines, at } = namePlace(named ? limit : '', cells, columns, {
    across: (letters) => Math.ceil((letters * letter_px + 8) / f.w),
    down: (count) => Math.ceil((count * line_px + 24) / f.h),
  })
  const cx = f.x(at.from) + (at.across * f.w) / 2
  const middle = f.y(at.from) + f.h - (at.down * f.h) / 2
  const cy = middle - (lines.length * line_px) / 2
  return group(
    { class: 'map-region' },
    el('circle', { cx, cy, r: 10 }),
    label([cx, cy + 4], String(model.numbers.get(limit) ?? ''), 'map-number', 'middle'),
    ...lines.map((words, i) => label([cx, cy + 24 + i * line_px], words, 'map-limit', 'middle')),
  )
}

/**
 * What a built supply serves by voltage and current: full where the divider alone does, hatched where parts of the
 * output must change, empty where nothing on the board helps, with number and name of the limit that binds. Each cell
 * carries its column and row as a spot.
 */
export function rangeMapDrawing(model: RangeMapModel): SvgNode {
  const { width, volts, amps, cells } = model
  const f = frameOf(model)
  const { height, w, h, x, y, px, py } = f
  const kinds = cells.map(({ verdict, limit }) => (verdict === 'none' ? (limit ?? '') : `serves ${verdict}`))
  const regions = regionsOf(
    cells.map(({ verdict, limit }) => (verdict === 'none' ? limit : null)),
    volts.length,
  )
  const named = new Set<string>()
  const inside = ({ output_V, output_A }: Output): boolean =>
    output_V >= volts[0]! && output_V <= volts.at(-1)! && output_A >= amps[0]! && output_A <= amps.at(-1)!
  const span = (all: readonly number[]) => ({ from: all[0]!, to: all.at(-1)!, log: false })
  return el(
    'svg',
    {
      class: 'range-map',
      viewBox: `0 0 ${width} ${height}`,
      role: 'img',
      'aria-label': model.title,
      xmlns: 'http://www.w3.org/2000/svg',
    },
    ...cells.map(({ verdict }, i) =>
      el('rect', {
        class: `is-${verdict}`,
        x: x(i),
        y: y(i),
        width: w + 0.4,
        height: h + 0.4,
        'data-spot': `${i % volts.length} ${Math.floor(i / volts.length)}`,
      }),
    ),
    ...cells.flatMap(({ verdict }, i) =>
      verdict === 'parts'
        ? [el('line', { class: 'map-hatch', x1: x(i), y1: y(i) + h, x2: x(i) + w, y2: y(i) })]
        : [],
    ),
    el('path', { class: 'map-between', d: borders(model, kinds, f) }),
    el('rect', {
      class: 'map-border',
      x: left,
      y: top,
      width: width - left - right,
      height: height - top - bottom,
    }),
    ...ticks(span(volts), width / 70).map((value) =>
      label([px(value), height - bottom + 16], String(value), 'map-tick', 'middle'),
    ),
    ...ticks(span(amps), 6).map((value) =>
      label([left - 6, py(value) + 4], String(value), 'map-tick', 'end'),
    ),
    label([width - right, height - 6], model.voltName, 'map-name', 'end'),
    label([2, 12], model.ampName, 'map-name'),
    ...regions.map((region) => {
      const first = !named.has(region.limit)
      named.add(region.limit)
      return regionMark(model, region, first, f)
    }),
    el('circle', { class: 'map-here', cx: px(model.here.output_V), cy: py(model.here.output_A), r: 7 }),
    model.asked && inside(model.asked)
      ? el('path', {
          class: 'map-mark',
          d: `M${px(model.asked.output_V) - 7} ${py(model.asked.output_A)}h14m-7-7v14`,
        })
      : null,
  )
}
