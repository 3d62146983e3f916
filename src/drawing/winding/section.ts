import { el, group, type SvgNode } from '../svg/node.ts'
import { label } from '../svg/path.ts'

/** One band of the coil: a layer of wire, a foil or shield, or tapes; heights from the barrel outward. */
export interface SectionBand {
  readonly kind: 'wire' | 'foil' | 'tape' | 'shield'
  readonly winding: 'primary' | 'secondary' | 'bias' | 'none'
  /** Words of the callout, for instance `1 · P1, 20 turns`. Empty for a band without callout. */
  readonly callout: string
  /** Number of the layer of copper, from the former outward; left out for tape. */
  readonly layer?: number
  readonly from_m: number
  readonly to_m: number
  readonly start_m: number
  readonly end_m: number
  /** Overall diameter of one wire, and centres as pairs (along the post from the left flange, height). */
  readonly wire_m?: number
  readonly centres_m?: readonly (readonly [along: number, height: number])[]
  /** Draws the band stronger, for instance because a limit points at it. */
  readonly marked?: boolean
}

export interface SectionModel {
  readonly title: string
  readonly width_m: number
  readonly height_m: number
  readonly wall_m: number
  readonly flange_m: number
  readonly margin_m: number
  readonly gap: { readonly place: 'post' | 'all-legs'; readonly length_m: number }
  readonly bands: readonly SectionBand[]
  /** Build-up with the hand-winding allowance; drawn as a line across the window. */
  readonly build_m: number
}

const coilWidth = 370
/** Least height of a line of words. */
const line = 23
const coreSide = 22
const coreBelow = 26
const coreAbove = 12
const numberRoom = 42
const wordRoom = 285

/** Heights pushed apart so that no two words overlap, kept in order from below, centred on where they belong. */
function spread(wanted: readonly number[], least: number): number[] {
  const rising: number[] = []
  for (const y of wanted) rising.push(Math.min(y, (rising.at(-1) ?? Number.POSITIVE_INFINITY) - least))
  const lag = wanted.reduce((sum, y, index) => sum + y - rising[index]!, 0) / Math.max(1, wanted.length)
  return rising.map((y) => y + lag)
}

function bandNode(band: SectionBand, scale: number, x0: number, y0: number): SvgNode {
  const x = x0 + band.start_m * scale
  const width = (band.end_m - band.start_m) * scale
  const top = y0 - band.to_m * scale
  const height = Math.max(1.2, (band.to_m - band.from_m) * scale)
  const classes = `band is-${band.kind} of-${band.winding}${band.marked ? ' is-marked' : ''}`
  if (band.kind !== 'wire' || !band.centres_m || !band.wire_m)
    return el('rect', { class: classes, x, y: top, width, height })
  const r = Math.max(0.8, (band.wire_m * scale) / 2 - 0.4)
  return group(
    { class: classes },
    ...band.centres_m.map(([along, up]) => {
      const cx = x0 + along * scale
      const cy = y0 - up * scale
      return band.winding === 'secondary' && r > 2
        ? group(
            {},
            el('circle', { cx, cy, r }),
            el('path', {
              d: `M${cx - r * 0.6} ${cy - r * 0.6}l${r * 1.2} ${r * 1.2}m0 ${-r * 1.2}l${-r * 1.2} ${r * 1.2}`,
            }),
          )
        : el('circle', { cx, cy, r })
    }),
  )
}

/** Core round the window, former in it, gap in post and legs. */
function frame(model: SectionModel, scale: number, x0: number, y0: number, windowTop: number): SvgNode[] {
  const flange = Math.max(3, model.flange_m * scale)
  const wall = Math.max(3, model.wall_m * scale)
  const left = x0 - flange
  const right = x0 + coilWidth + flange
  const outer = left - coreSide - 2
  const across = right - left + 2 * coreSide + 4
  const centre = x0 + coilWidth / 2
  const gap = Math.max(model.gap.length_m * scale, 1.6)
  const gaps = model.gap.length_m === 0 ? [] : model.gap.place === 'post' ? ['post'] : ['post', 'leg']
  const tall = y0 + wall - windowTop
  return [
    el('rect', { class: 'core', x: outer, y: y0 + wall, width: across, height: coreBelow }),
    el('rect', { class: 'core', x: outer, y: windowTop - coreAbove, width: across, height: coreAbove }),
    el('rect', { class: 'core', x: outer, y: windowTop, width: coreSide, height: tall }),
    el('rect', { class: 'core', x: right + 2, y: windowTop, width: coreSide, height: tall }),
    ...gaps.map((place) =>
      el('rect', {
        class: 'gap',
        x: centre - gap / 2,
        y: place === 'post' ? y0 + wall : windowTop - coreAbove,
        width: gap,
        height: place === 'post' ? coreBelow : coreAbove,
      }),
    ),
    el('path', {
      class: 'former-wall',
      d: `M${left} ${windowTop}V${y0 + wall}H${right}V${windowTop}H${right - flange}V${y0}H${x0}V${windowTop}Z`,
    }),
  ]
}

/** Margins at both ends of the window. */
function margins(model: SectionModel, scale: number, x0: number, y0: number): SvgNode | null {
  const width = model.margin_m * scale
  if (width === 0) return null
  const height = model.build_m * scale
  return group(
    { class: 'margins' },
    ...[x0, x0 + coilWidth - width].map((x) => el('rect', { x, y: y0 - height, width, height })),
  )
}

/**
 * Section through the winding window, true to scale: post below, coil upwards; layers of copper numbered at the left
 * from the former outward, windings and tapes named at the right.
 */
export function windingSection(model: SectionModel): SvgNode {
  const scale = coilWidth / model.width_m
  const flange = Math.max(3, model.flange_m * scale)
  const wall = Math.max(3, model.wall_m * scale)
  const highest = Math.max(model.height_m, model.build_m, ...model.bands.map((band) => band.to_m))
  const x0 = numberRoom + coreSide + 4 + flange
  const y0 = highest * scale + coreAbove
  const windowTop = y0 - model.height_m * scale
  const right = x0 + coilWidth + flange + coreSide + 2
  const middle = (band: SectionBand) => y0 - ((band.from_m + band.to_m) / 2) * scale
  const named = model.bands.filter((band) => band.callout !== '')
  const words = spread(named.map(middle), line)
  const layers = model.bands.filter((band) => band.layer !== undefined)
  const numbers = spread(layers.map(middle), line)
  const bottom = y0 + wall + coreBelow
  const top = Math.min(windowTop - coreAbove, ...words.map((y) => y - 14), ...numbers.map((y) => y - 14)) - 2
  const low = Math.max(bottom + line, ...words.map((y) => y + 8), ...numbers.map((y) => y + 8))
  const buildTop = y0 - model.build_m * scale
  return el(
    'svg',
    {
      class: 'section',
      viewBox: `0 ${top} ${right + wordRoom} ${low - top}`,
      role: 'img',
      'aria-label': `${model.title}. From the former outward: ${named.map((band) => band.callout).join('; ')}.`,
      xmlns: 'http://www.w3.org/2000/svg',
    },
    ...frame(model, scale, x0, y0, windowTop),
    margins(model, scale, x0, y0),
    ...model.bands.map((band) => bandNode(band, scale, x0, y0)),
    el('line', { class: 'build', x1: x0 - flange, y1: buildTop, x2: x0 + coilWidth + flange, y2: buildTop }),
    ...layers.map((band, index) => {
      const y = numbers[index]!
      return group(
        { class: 'callout' },
        el('polyline', {
          points: `${x0 + band.start_m * scale},${middle(band)} ${numberRoom - 4},${middle(band)} ${numberRoom - 10},${y}`,
        }),
        label([numberRoom - 13, y + 6], String(band.layer), 'layer-number', 'end'),
      )
    }),
    ...named.map((band, index) => {
      const y = words[index]!
      return group(
        { class: `callout of-${band.winding}` },
        el('polyline', {
          points: `${x0 + band.end_m * scale},${middle(band)} ${right + 4},${middle(band)} ${right + 12},${y}`,
        }),
        label([right + 16, y + 6], band.callout, band.kind === 'tape' ? 'quiet' : 'name'),
      )
    }),
    label([x0 + coilWidth / 2, bottom + 18], gapWords(model), 'quiet', 'middle'),
  )
}

const gapWords = (model: SectionModel): string => {
  const length = `${(model.gap.length_m * 1000).toFixed(2)} mm`
  if (model.gap.length_m === 0) return 'no gap'
  return model.gap.place === 'post' ? `gap ${length}, in the post only` : `spacer ${length} under every leg`
}
