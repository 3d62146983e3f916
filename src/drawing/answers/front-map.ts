import { type Axis, along, ticks } from '../field/axis.ts'
import { el, group, type SvgNode } from '../svg/node.ts'
import { label } from '../svg/path.ts'

/** One answer on the map. */
export interface FrontPoint {
  /** Number in the list beside it; null for answers that are only dots. */
  readonly number: number | null
  readonly loss_W: number
  readonly size_cm3: number
  /** 0 to 1: how much of the ring round the point is closed. */
  readonly margin: number
  readonly words: string
  readonly marked: boolean
}

export interface FrontMapModel {
  /** Width in CSS pixels, so that letters keep their size. */
  readonly width: number
  readonly title: string
  readonly lossName: string
  readonly sizeName: string
  readonly points: readonly FrontPoint[]
}

const left = 44
const right = 18
const top = 26
const bottom = 40
const radius = 12

interface Size {
  readonly width: number
  readonly height: number
}

const sizeOf = (width: number): Size => ({
  width,
  height: Math.round(Math.min(400, Math.max(260, 0.6 * width))),
})

/** A range round values with room at both ends. */
function axisOf(values: readonly number[], log: boolean): Axis {
  const low = Math.min(...values)
  const high = Math.max(...values)
  if (log) {
    const ratio = Math.max(1.25, (high / low) ** 0.12)
    return { from: low / ratio, to: high * ratio, log }
  }
  const room = Math.max(0.12 * (high - low), 0.04 * high, 1e-3)
  return { from: Math.max(0, low - room), to: high + room, log }
}

/** Moves numbered points apart that would lie on each other, keeping them as near as can be to where they belong. */
function spread(
  places: readonly (readonly [x: number, y: number])[],
  { width, height }: Size,
): [number, number][] {
  const out = places.map(([x, y]): [number, number] => [x, y])
  const apart = 2 * radius + 3
  for (let step = 0; step < 120; step++) {
    let moved = false
    for (let i = 0; i < out.length; i++)
      for (let j = i + 1; j < out.length; j++) {
        const [a, b] = [out[i]!, out[j]!]
        const dx = b[0] - a[0] || 0.01 * (j - i)
        const dy = b[1] - a[1] || 0.01
        const far = Math.hypot(dx, dy)
        if (far >= apart) continue
        const push = (apart - far) / 2 / far
        a[0] -= dx * push
        a[1] -= dy * push
        b[0] += dx * push
        b[1] += dy * push
        moved = true
      }
    for (const p of out) {
      p[0] = Math.max(left + radius, Math.min(width - right - radius, p[0]))
      p[1] = Math.max(top + radius, Math.min(height - bottom - radius, p[1]))
    }
    if (!moved) break
  }
  return out
}

/** Part of a circle from the top, clockwise. */
function ring(x: number, y: number, r: number, share: number): string {
  const turn = 2 * Math.PI * Math.min(0.9999, Math.max(0, share))
  const [ex, ey] = [x + r * Math.sin(turn), y - r * Math.cos(turn)]
  return `M${x.toFixed(1)} ${(y - r).toFixed(1)}A${r} ${r} 0 ${turn > Math.PI ? 1 : 0} 1 ${ex.toFixed(1)} ${ey.toFixed(1)}`
}

/**
 * Answers by loss and size, the better to the left and down. Numbered ones are buttons that open; the ring tells the
 * margin. Every number stands in the list beside the map, which says the same in words.
 */
export function frontMap(model: FrontMapModel): SvgNode {
  const size = sizeOf(model.width)
  const { width, height } = size
  const xs = axisOf(
    model.points.map((p) => p.loss_W),
    false,
  )
  const ys = axisOf(
    model.points.map((p) => p.size_cm3),
    true,
  )
  const px = (value: number) => left + along(xs, value) * (width - left - right)
  const py = (value: number) => top + (1 - along(ys, value)) * (height - top - bottom)
  const numbered = model.points.filter((p) => p.number !== null)
  const homes = numbered.map((p) => [px(p.loss_W), py(p.size_cm3)] as const)
  const places = spread(homes, size)
  return el(
    'svg',
    {
      class: 'front-map',
      viewBox: `0 0 ${width} ${height}`,
      role: 'group',
      'aria-label': model.title,
      xmlns: 'http://www.w3.org/2000/svg',
    },
    ...ticks(ys, 5).flatMap((value) => [
      el('line', { class: 'map-grid', x1: left, x2: width - right, y1: py(value), y2: py(value) }),
      label([left - 6, py(value) + 4], String(value), 'map-tick', 'end'),
    ]),
    ...ticks(xs, width / 64).flatMap((value) => [
      el('line', { class: 'map-grid', x1: px(value), x2: px(value), y1: top, y2: height - bottom }),
      label([px(value), height - bottom + 16], String(value), 'map-tick', 'middle'),
    ]),
    el('line', { class: 'map-axis', x1: left, x2: width - right, y1: height - bottom, y2: height - bottom }),
    label([width - right, height - 6], model.lossName, 'map-name', 'end'),
    label([2, 13], model.sizeName, 'map-name'),
    ...model.points
      .filter((p) => p.number === null)
      .map((p) => el('circle', { class: 'map-other', cx: px(p.loss_W), cy: py(p.size_cm3), r: 3 })),
    ...homes.map(([x, y], i) =>
      Math.hypot(x - places[i]![0], y - places[i]![1]) > 4
        ? el('line', { class: 'map-lead', x1: x, y1: y, x2: places[i]![0], y2: places[i]![1] })
        : null,
    ),
    ...numbered.map((p, i) => {
      const [x, y] = places[i]!
      return group(
        {
          class: p.marked ? 'map-answer is-marked' : 'map-answer',
          role: 'button',
          tabindex: 0,
          'aria-label': `${p.number}: ${p.words}`,
          'data-spot': String(p.number),
        },
        el('circle', { class: 'map-focus', cx: x, cy: y, r: radius + 4 }),
        el('circle', { cx: x, cy: y, r: radius - 1 }),
        el('path', { class: 'map-ring', d: ring(x, y, radius - 1, p.margin) }),
        label([x, y + 4.5], String(p.number), 'map-number', 'middle'),
      )
    }),
  )
}
