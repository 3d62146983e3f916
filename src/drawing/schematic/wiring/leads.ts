import type { SvgNode } from '../../svg/node.ts'
import { junction, type Point, wire } from '../../svg/path.ts'
import { seats } from '../layout.ts'
import type { Spot } from '../model.ts'
import { reach } from '../symbols.ts'

/** A wire through points, and the dots where others meet it. */
export const run = (points: Point[], dots: Point[] = []): SvgNode[] => [
  wire(...points),
  ...dots.map(junction),
]

/** A wire along a height that is interrupted where series parts sit. */
export function seriesRun(
  y: number,
  from: number,
  to: number,
  spots: Spot[],
  has: (spot: Spot) => boolean,
): SvgNode[] {
  const nodes: SvgNode[] = []
  let x = from
  for (const spot of spots) {
    if (!has(spot)) continue
    const centre = seats[spot].centre[0]
    nodes.push(wire([x, y], [centre - reach, y]))
    x = centre + reach
  }
  nodes.push(wire([x, y], [to, y]))
  return nodes
}

/** A part that stands upright between two heights: its two leads, with dots where they meet the rails. */
export function shunt(
  spot: Spot,
  top: number,
  bottom: number,
  dots: 'both' | 'top' | 'none' = 'both',
): SvgNode[] {
  const [x, y] = seats[spot].centre
  const nodes = [wire([x, top], [x, y - reach]), wire([x, y + reach], [x, bottom])]
  if (dots !== 'none') nodes.push(junction([x, top]))
  if (dots === 'both') nodes.push(junction([x, bottom]))
  return nodes
}
