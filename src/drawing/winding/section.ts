import { el, group, type SvgNode } from '../svg/node.ts'
import { label } from '../svg/path.ts'

/** One band of the coil: a layer of wire, a foil or shield, or tapes; heights from the barrel outward. */
export interface SectionBand {
  readonly kind: 'wire' | 'foil' | 'tape' | 'shield'
  readonly winding: 'primary' | 'secondary' | 'bias' | 'none'
  /** Words of the callout, for instance `1 · P1, 20 turns`. Empty for a band without callout. */
  readonly callout: string
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

const coilWidth = 560
const calloutGap = 17

/** Callout heights pushed apart so that no two overlap, kept in order. */
function spread(wanted: readonly number[], least: number): number[] {
  const placed = [...wanted]
  for (let i = 1; i < placed.length; i++) placed[i] = Math.min(placed[i]!, placed[i - 1]! - least)
  return placed
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

/** Section through the winding window, true to scale: post below, coil upwards, callouts at the right. */
export function windingSection(model: SectionModel): SvgNode {
  const scale = coilWidth / model.width_m
  const flange = Math.max(3, model.flange_m * scale)
  const wall = Math.max(3, model.wall_m * scale)
  const coreBelow = 34
  const coreAbove = 16
  const highest = Math.max(model.height_m, model.build_m, ...model.bands.map((band) => band.to_m))
  const x0 = 46 + flange
  const y0 = highest * scale + coreAbove + 26
  const bottom = y0 + wall + coreBelow
  const right = x0 + coilWidth + flange
  const named = model.bands.filter((band) => band.callout !== '')
  const at = spread(
    named.map((band) => y0 - ((band.from_m + band.to_m) / 2) * scale + 4),
    calloutGap,
  )
  const lift = Math.max(0, 18 - Math.min(18, ...at))
  const windowTop = y0 - model.height_m * scale
  const gap = model.gap.length_m * scale
  const centre = x0 + coilWidth / 2
  const margin = model.margin_m * scale
  const spoken = `${model.title}. From the former outward: ${named.map((band) => band.callout).join('; ')}.`
  return el(
    'svg',
    {
      class: 'section',
      viewBox: `0 ${-lift} ${right + 268} ${bottom + 30 + lift}`,
      role: 'img',
      'aria-label': spoken,
      xmlns: 'http://www.w3.org/2000/svg',
    },
    el('rect', { class: 'core', x: 4, y: y0 + wall, width: right + 38, height: coreBelow }),
    el('rect', { class: 'core', x: 4, y: windowTop - coreAbove, width: right + 38, height: coreAbove }),
    el('rect', { class: 'core', x: 4, y: windowTop, width: 38, height: y0 + wall - windowTop }),
    el('rect', { class: 'core', x: right + 4, y: windowTop, width: 38, height: y0 + wall - windowTop }),
    gap > 0
      ? el('rect', {
          class: 'gap',
          x: centre - Math.max(gap, 1.6) / 2,
          y: y0 + wall,
          width: Math.max(gap, 1.6),
          height: coreBelow,
        })
      : null,
    gap > 0 && model.gap.place === 'all-legs'
      ? el('rect', {
          class: 'gap',
          x: centre - Math.max(gap, 1.6) / 2,
          y: windowTop - coreAbove,
          width: Math.max(gap, 1.6),
          height: coreAbove,
        })
      : null,
    el('path', {
      class: 'former-wall',
      d: `M${x0 - flange} ${windowTop}V${y0 + wall}H${right}V${windowTop}H${right - flange}V${y0}H${x0}V${windowTop}Z`,
    }),
    margin > 0
      ? group(
          { class: 'margins' },
          el('rect', { x: x0, y: y0 - model.build_m * scale, width: margin, height: model.build_m * scale }),
          el('rect', {
            x: x0 + coilWidth - margin,
            y: y0 - model.build_m * scale,
            width: margin,
            height: model.build_m * scale,
          }),
        )
      : null,
    ...model.bands.map((band) => bandNode(band, scale, x0, y0)),
    el('line', {
      class: 'build',
      x1: x0 - flange,
      y1: y0 - model.build_m * scale,
      x2: right,
      y2: y0 - model.build_m * scale,
    }),
    ...named.map((band, index) => {
      const y = at[index]!
      const from = y0 - ((band.from_m + band.to_m) / 2) * scale
      return group(
        { class: `callout of-${band.winding}` },
        el('polyline', {
          points: `${x0 + band.end_m * scale},${from} ${right + 46},${from} ${right + 54},${y - 4} ${right + 60},${y - 4}`,
        }),
        label([right + 64, y], band.callout, band.kind === 'tape' ? 'quiet' : 'name'),
      )
    }),
    label([centre, bottom + 18], gapWords(model), 'quiet', 'middle'),
  )
}

const gapWords = (model: SectionModel): string => {
  const length = `${(model.gap.length_m * 1000).toFixed(2)} mm`
  if (model.gap.length_m === 0) return 'no gap'
  return model.gap.place === 'post' ? `gap ${length}, in the post only` : `spacer ${length} under every leg`
}
