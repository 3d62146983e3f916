import { describe, expect, it } from 'vitest'
import { paperFigures } from '../../src/drawing/index.ts'
import { type SvgNode, toMarkup } from '../../src/drawing/svg/node.ts'
import { assessmentOf, type SupplyName, supplyNames } from './supplies.ts'

type Point = [x: number, y: number]
interface Found {
  readonly wires: Point[][]
  readonly dots: Point[]
}

const close = ([ax, ay]: Point, [bx, by]: Point, within = 5) => Math.hypot(ax - bx, ay - by) <= within

/** Places a point by the transforms that drawings use: a shift, then quarter turns. */
function placed(transform: string, [x, y]: Point): Point {
  const [, dx, dy] = transform.match(/translate\((\S+) (\S+)\)/) ?? ['', '0', '0']
  const turns = (Number(transform.match(/rotate\((\S+)\)/)?.[1] ?? 0) / 90) % 4
  let [px, py] = [x, y]
  for (let i = 0; i < turns; i++) [px, py] = [-py, px]
  return [px + Number(dx), py + Number(dy)]
}

/** Every wire and junction of a drawing, in the coordinates of the sheet. */
function collect(node: SvgNode, at: readonly string[] = []): Found {
  const transform = node.attributes.transform
  const inside = transform === undefined ? at : [...at, String(transform)]
  const onSheet = (point: Point): Point => inside.reduceRight<Point>((p, t) => placed(t, p), point)
  const kind = String(node.attributes.class ?? '')
  const own: Found = { wires: [], dots: [] }
  if (node.tag === 'polyline' && kind === 'wire')
    own.wires.push(
      String(node.attributes.points)
        .split(' ')
        .map((pair) => onSheet(pair.split(',').map(Number) as Point)),
    )
  if (node.tag === 'circle' && kind === 'junction')
    own.dots.push(onSheet([Number(node.attributes.cx), Number(node.attributes.cy)]))
  for (const child of node.children) {
    if (typeof child === 'string') continue
    const { wires, dots } = collect(child, inside)
    own.wires.push(...wires)
    own.dots.push(...dots)
  }
  return own
}

const onSegment = ([x, y]: Point, [[ax, ay], [bx, by]]: [Point, Point]) =>
  (Math.abs(x - ax) < 0.5 && Math.abs(x - bx) < 0.5 && y >= Math.min(ay, by) && y <= Math.max(ay, by)) ||
  (Math.abs(y - ay) < 0.5 && Math.abs(y - by) < 0.5 && x >= Math.min(ax, bx) && x <= Math.max(ax, bx))

/** Pins of the blocks that draw no lead of their own: terminals, bridge, coils, chip, optocoupler box, choke. */
const blockPins: readonly Point[] = [
  [34, 150],
  [34, 250],
  [1500, 80],
  [1500, 240],
  [528, 150],
  [528, 250],
  [592, 150],
  [592, 250],
  [454, 150],
  [510, 150],
  [454, 250],
  [510, 250],
  [900, 132],
  [900, 188],
  [950, 132],
  [950, 188],
  [900, 432],
  [900, 488],
  [735, 285],
  [735, 385],
  [680, 335],
  [790, 365],
]

/** Ends of wires that meet nothing. */
function loose({ wires, dots }: Found): string[] {
  return wires.flatMap((wire, index) =>
    [wire[0]!, wire.at(-1)!].flatMap((end) => {
      const others = wires.filter((_, other) => other !== index)
      const meetsEnd = others.some((other) => close(other[0]!, end, 0.6) || close(other.at(-1)!, end, 0.6))
      const onWire = others.some((other) =>
        other.some((point, i) => i > 0 && onSegment(end, [other[i - 1]!, point])),
      )
      const dotted = dots.some((dot) => close(dot, end, 0.6))
      const atPin = blockPins.some((pin) => close(pin, end))
      return meetsEnd || atPin || (onWire && dotted) ? [] : [`(${end[0]}, ${end[1]})`]
    }),
  )
}

describe.each(supplyNames)('schematic of %s', (name: SupplyName) => {
  const drawing = paperFigures(assessmentOf(name)).schematic!
  const wiring = drawing.children.find(
    (child): child is SvgNode => typeof child !== 'string' && child.attributes.class === 'wires',
  )!

  it('leaves no wire end in the air', () => {
    const { wires } = collect(wiring)
    const ends = wires.flatMap((wire) => [wire[0]!, wire.at(-1)!]).map(([x, y]) => `(${x}, ${y})`)
    expect(loose(collect(drawing)).filter((end) => ends.includes(end))).toEqual([])
  })
})

describe('control of the chip', () => {
  const pins = (name: SupplyName) =>
    [...toMarkup(paperFigures(assessmentOf(name)).schematic!).matchAll(/class="pin"[^>]*>([A-Z])</g)].map(
      ([, pin]) => pin,
    )
  it('is fed through one pin, or drawn from a feedback pin beside a supply pin', () => {
    expect(pins('simple')).toEqual(expect.arrayContaining(['D', 'S', 'C']))
    expect(pins('peakCurrent')).toEqual(expect.arrayContaining(['D', 'S', 'F', 'V']))
  })
})

describe('clamp', () => {
  const spots = (name: SupplyName) =>
    [...toMarkup(paperFigures(assessmentOf(name)).schematic!).matchAll(/data-spot="(clamp\w+)"/g)].map(
      ([, spot]) => spot,
    )
  it('is drawn of the parts that it has', () => {
    expect(spots('simple').sort()).toEqual(['clampCapacitor', 'clampDiode', 'clampResistor'])
    expect(spots('avalanche').sort()).toEqual(['clampAvalanche', 'clampDiode'])
  })
})
