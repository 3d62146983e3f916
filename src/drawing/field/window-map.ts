import { el, group, type SvgNode } from '../svg/node.ts'
import { label } from '../svg/path.ts'
import type { SectionBand, SectionModel } from '../winding/section.ts'
import { pushApart } from './apart.ts'
import { type Grid, regionPath, roundLevels } from './contour.ts'

/** Heat of one layer of copper, drawn beside it. */
export interface LayerBar {
  /** Number of the layer from the former outward, as on the winding sheet. */
  readonly layer: number
  readonly loss_W: number
  readonly words: string
}

export interface WindowMapModel {
  readonly section: SectionModel
  /** Flux density over the window; columns outward from the barrel, rows along the post from mid-height. Null: no map. */
  readonly field: { readonly grid: Grid; readonly name: string } | null
  readonly bars: readonly LayerBar[]
  /** Number of the layer that stands out. */
  readonly marked: number | null
  /** For a narrow page: larger words, no bars. */
  readonly compact?: boolean
}

const coilWidth = 440
const line = 19
const post = 20
const plate = 16
const outer = 12
const barRoom = 190
const barLength = 84
const numberRoom = 26
/** Steps of colour in the map. */
const mapSteps = 8

/** What a shell needs to turn a place on the drawing back into a place in the window. */
export interface MapPlace {
  readonly x0: number
  readonly y0: number
  readonly scale: number
  readonly width_m: number
}

const frameOf = (section: SectionModel) => {
  const scale = coilWidth / section.width_m
  const flange = Math.max(3, section.flange_m * scale)
  const wall = Math.max(3, section.wall_m * scale)
  const highest = Math.max(section.height_m, section.build_m)
  return {
    scale,
    flange,
    wall,
    x0: numberRoom + plate + flange,
    y0: outer + highest * scale,
    top: outer + (highest - section.height_m) * scale,
  }
}

/** Where the window lies on the drawing of a section. */
export const mapPlace = (section: SectionModel): MapPlace => {
  const { x0, y0, scale } = frameOf(section)
  return { x0, y0, scale, width_m: section.width_m }
}

/** The grid carried on to the walls of the window, so that colour reaches them. */
const padded = ({ columns, rows, values }: Grid): Grid => {
  const edge = (list: ArrayLike<number>): number[] => {
    const first = list[0]! - (list[1]! - list[0]!) / 2
    const last = list[list.length - 1]! + (list[1]! - list[0]!) / 2
    return [first, ...Array.from(list), last]
  }
  const inside = (i: number, count: number) => Math.min(count - 1, Math.max(0, i - 1))
  const [c, r] = [edge(columns), edge(rows)]
  return {
    columns: c,
    rows: r,
    values: Float64Array.from(
      { length: c.length * r.length },
      (_, at) =>
        values[
          inside(Math.floor(at / r.length), columns.length) * rows.length + inside(at % r.length, rows.length)
        ]!,
    ),
  }
}

const bandNode = (
  band: SectionBand,
  { x0, y0, scale }: ReturnType<typeof frameOf>,
  marked: boolean,
): SvgNode => {
  const x = x0 + band.start_m * scale
  const width = (band.end_m - band.start_m) * scale
  const y = y0 - band.to_m * scale
  const height = Math.max(1, (band.to_m - band.from_m) * scale)
  const classes = `map-band is-${band.kind} of-${band.winding}${marked ? ' is-marked' : ''}`
  const spot = band.layer === undefined ? {} : { 'data-layer': band.layer }
  if (band.kind !== 'wire' || !band.centres_m || !band.wire_m)
    return el('rect', { class: classes, x, y, width, height, ...spot })
  const r = Math.max(0.7, (band.wire_m * scale) / 2 - 0.3)
  return group(
    { class: classes, ...spot },
    el('rect', { class: 'map-hit', x, y, width, height }),
    ...band.centres_m.map(([along, up]) => el('circle', { cx: x0 + along * scale, cy: y0 - up * scale, r })),
  )
}

const legend = (levels: readonly number[], x: number, y: number, drop: number): SvgNode =>
  group(
    { class: 'map-legend' },
    ...levels.map((level, i) =>
      group(
        {},
        el('rect', {
          class: `map-step-${i + 1 + (mapSteps - levels.length)}`,
          x: x + i * 46,
          y,
          width: 46,
          height: 9,
        }),
        label([x + i * 46, y + drop], milli(level), 'quiet', 'middle'),
      ),
    ),
    label([x + levels.length * 46 + 10, y + drop], 'mT', 'quiet'),
  )

const milli = (tesla: number): string => String(Number((tesla * 1e3).toPrecision(2)))

/**
 * Section of the winding window true to scale, post below, coil upwards: magnitude of flux density as steps of colour,
 * every turn on it, and the heat of each layer as a bar beside it.
 */
export function windowMap(model: WindowMapModel): SvgNode {
  const { section, field, bars, compact = false } = model
  const step = compact ? line + 5 : line
  const frame = frameOf(section)
  const { scale, flange, wall, x0, y0, top } = frame
  const right = x0 + coilWidth + flange
  const layers = section.bands.filter((band) => band.layer !== undefined)
  const middle = (band: SectionBand) => y0 - ((band.from_m + band.to_m) / 2) * scale
  const words = pushApart(layers.map(middle), step)
  const most = Math.max(1e-12, ...bars.map((bar) => bar.loss_W))
  const barX = right + plate + 22
  const core = y0 + wall
  const half = section.width_m / 2
  const wide = section.width_m + 2 * section.flange_m
  const levels = field === null ? [] : roundLevels(greatest(field.grid.values), mapSteps)
  const grid = field === null ? null : padded(field.grid)
  const window = (c: number, r: number): readonly [number, number] => [
    x0 + (half + Math.max(-wide / 2, Math.min(wide / 2, r))) * scale,
    Math.max(top, Math.min(core, y0 - c * scale)),
  ]
  const gap = Math.max(section.gap.length_m * scale, 1.6)
  const low = Math.max(core + post + (field === null ? 26 : compact ? 74 : 64), ...words.map((y) => y + 10))
  const high = Math.min(0, ...words.map((y) => y - 14))
  const spoken = bars.map((bar) => `layer ${bar.layer}: ${bar.words}`).join('; ')
  return el(
    'svg',
    {
      class: compact ? 'window-map is-compact' : 'window-map',
      viewBox: `0 ${high} ${compact ? right + plate + 2 : barX + barRoom} ${low - high}`,
      role: 'img',
      'aria-label': `${section.title}. ${field === null ? '' : `${field.name}, up to ${milli(greatest(field.grid.values))} mT. `}Heat, from the former outward: ${spoken}.`,
      xmlns: 'http://www.w3.org/2000/svg',
    },
    el('rect', {
      class: 'map-room',
      x: x0 - flange,
      y: top,
      width: coilWidth + 2 * flange,
      height: core - top,
    }),
    grid === null
      ? null
      : group(
          { class: 'map-field' },
          ...levels.map((level, i) =>
            el('path', {
              class: `map-step-${i + 1 + (mapSteps - levels.length)}`,
              d: regionPath(grid, level, window),
            }),
          ),
        ),
    el('path', {
      class: 'map-core',
      d: `M${x0 - flange - plate} ${top - outer}H${right + plate}V${core + post}H${x0 - flange - plate}ZM${x0 - flange} ${top}V${core}H${right}V${top}Z`,
      'fill-rule': 'evenodd',
    }),
    el('path', {
      class: 'map-former',
      d: `M${x0 - flange} ${top}V${core}H${right}V${top}H${right - flange}V${y0}H${x0}V${top}Z`,
    }),
    section.gap.length_m === 0
      ? null
      : el('rect', { class: 'map-gap', x: x0 + coilWidth / 2 - gap / 2, y: core, width: gap, height: post }),
    section.gap.place === 'all-legs' && section.gap.length_m > 0
      ? el('rect', {
          class: 'map-gap',
          x: x0 + coilWidth / 2 - gap / 2,
          y: top - outer,
          width: gap,
          height: outer,
        })
      : null,
    ...section.bands.map((band) =>
      bandNode(band, frame, band.layer !== undefined && band.layer === model.marked),
    ),
    ...layers.map((band, index) => {
      const y = words[index]!
      const bar = compact ? null : (bars.find((b) => b.layer === band.layer) ?? null)
      const classes = `map-callout of-${band.winding}${band.layer === model.marked ? ' is-marked' : ''}`
      return group(
        { class: classes, 'data-layer': band.layer },
        bar &&
          el('polyline', {
            points: `${right + plate},${middle(band)} ${right + plate + 6},${middle(band)} ${barX - 4},${y}`,
          }),
        label([numberRoom - 8, y + 5], String(band.layer), 'layer-number', 'end'),
        bar
          ? el('rect', {
              class: 'map-bar',
              x: barX,
              y: y - 5,
              width: Math.max(1.5, (bar.loss_W / most) * barLength),
              height: 10,
            })
          : null,
        bar
          ? label([barX + Math.max(1.5, (bar.loss_W / most) * barLength) + 6, y + 5], bar.words, 'map-words')
          : null,
      )
    }),
    field === null ? null : legend(levels, x0, core + post + 22, compact ? 34 : 25),
  )
}

const greatest = (values: ArrayLike<number>): number => {
  let most = 0
  for (let i = 0; i < values.length; i++) if (values[i]! > most) most = values[i]!
  return most
}
