import { ticks } from '../field/axis.ts'
import { el, group, type SvgNode } from '../svg/node.ts'
import { label } from '../svg/path.ts'

export interface RangeMapModel {
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
  readonly here: { readonly output_V: number; readonly output_A: number }
  readonly asked: { readonly output_V: number; readonly output_A: number } | null
}

const width = 560
const height = 330
const left = 50
const right = 14
const top = 24
const bottom = 40

/** Connected cells that serve alike, or are bound by one limit; the largest of each limit is numbered. */
function regions(model: RangeMapModel): { readonly limit: string; readonly cells: readonly number[] }[] {
  const { volts, cells } = model
  const columns = volts.length
  const kind = (i: number): string =>
    cells[i]!.verdict === 'none' ? (cells[i]!.limit ?? '') : `serves ${cells[i]!.verdict}`
  const seen = new Set<number>()
  const found: { limit: string; cells: number[] }[] = []
  for (let start = 0; start < cells.length; start++) {
    if (seen.has(start) || cells[start]!.verdict !== 'none' || cells[start]!.limit === null) continue
    const region: number[] = []
    const queue = [start]
    seen.add(start)
    for (let i = queue.pop(); i !== undefined; i = queue.pop()) {
      region.push(i)
      const column = i % columns
      for (const j of [column > 0 ? i - 1 : -1, column < columns - 1 ? i + 1 : -1, i - columns, i + columns])
        if (j >= 0 && j < cells.length && !seen.has(j) && kind(j) === kind(start)) {
          seen.add(j)
          queue.push(j)
        }
    }
    found.push({ limit: cells[start]!.limit!, cells: region })
  }
  const largest = new Map<string, { limit: string; cells: number[] }>()
  for (const region of found)
    if (region.cells.length > (largest.get(region.limit)?.cells.length ?? 0))
      largest.set(region.limit, region)
  return [...largest.values()].filter(({ cells }) => cells.length > 2)
}

/** The cell of a region that lies nearest to its middle. */
function middleOf(cells: readonly number[], columns: number): number {
  const mean = (pick: (i: number) => number) => cells.reduce((sum, i) => sum + pick(i), 0) / cells.length
  const column = mean((i) => i % columns)
  const row = mean((i) => Math.floor(i / columns))
  const far = (i: number) => Math.hypot((i % columns) - column, Math.floor(i / columns) - row)
  return cells.reduce((a, b) => (far(b) < far(a) ? b : a))
}

/**
 * What a built supply serves by voltage and current: full where the divider alone does, hatched where parts of the
 * output must change, empty where nothing on the board helps, with the number of the limit that binds.
 */
export function rangeMapDrawing(model: RangeMapModel): SvgNode {
  const { volts, amps, cells } = model
  const columns = volts.length
  const w = (width - left - right) / columns
  const h = (height - top - bottom) / amps.length
  const x = (i: number) => left + (i % columns) * w
  const y = (i: number) => height - bottom - (Math.floor(i / columns) + 1) * h
  const span = { v: [volts[0]!, volts.at(-1)!] as const, a: [amps[0]!, amps.at(-1)!] as const }
  const px = (value: number) =>
    left + w / 2 + ((value - span.v[0]) / (span.v[1] - span.v[0])) * (width - left - right - w)
  const py = (value: number) =>
    height - bottom - h / 2 - ((value - span.a[0]) / (span.a[1] - span.a[0])) * (height - top - bottom - h)
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
      el('rect', { class: `is-${verdict}`, x: x(i), y: y(i), width: w + 0.4, height: h + 0.4 }),
    ),
    ...cells.flatMap(({ verdict }, i) =>
      verdict === 'parts'
        ? [el('line', { class: 'map-hatch', x1: x(i), y1: y(i) + h, x2: x(i) + w, y2: y(i) })]
        : [],
    ),
    el('rect', {
      class: 'map-border',
      x: left,
      y: top,
      width: width - left - right,
      height: height - top - bottom,
    }),
    ...ticks({ from: span.v[0], to: span.v[1], log: false }, 8).map((value) =>
      label([px(value), height - bottom + 16], String(value), 'map-tick', 'middle'),
    ),
    ...ticks({ from: span.a[0], to: span.a[1], log: false }, 6).map((value) =>
      label([left - 6, py(value) + 4], String(value), 'map-tick', 'end'),
    ),
    label([width - right, height - 6], model.voltName, 'map-name', 'end'),
    label([2, 12], model.ampName, 'map-name'),
    ...regions(model).map(({ limit, cells: inside }) => {
      const at = middleOf(inside, columns)
      const [cx, cy] = [x(at) + w / 2, y(at) + h / 2]
      return group(
        { class: 'map-region' },
        el('circle', { cx, cy, r: 10 }),
        label([cx, cy + 4], String(model.numbers.get(limit) ?? ''), 'map-number', 'middle'),
      )
    }),
    el('circle', { class: 'map-here', cx: px(model.here.output_V), cy: py(model.here.output_A), r: 7 }),
    model.asked
      ? el('path', {
          class: 'map-mark',
          d: `M${px(model.asked.output_V) - 6} ${py(model.asked.output_A)}h12M${px(model.asked.output_V)} ${py(model.asked.output_A) - 6}v12`,
        })
      : null,
  )
}
