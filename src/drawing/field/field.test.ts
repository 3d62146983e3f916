import { describe, expect, it } from 'vitest'
import { toMarkup } from '../svg/node.ts'
import { pushApart } from './apart.ts'
import { along, ticks } from './axis.ts'
import { calliperDrawing } from './calliper.ts'
import { chart } from './chart.ts'
import { regionPath, roundLevels } from './contour.ts'

/** Area enclosed by path data of straight lines. */
const areaOf = (d: string): number =>
  d
    .split('M')
    .filter(Boolean)
    .reduce((sum, piece) => {
      const points = piece
        .replace('Z', '')
        .split('L')
        .map((p) => p.split(' ').map(Number) as [number, number])
      return (
        sum +
        Math.abs(
          points.reduce((s, [x, y], i) => {
            const [u, v] = points[(i + 1) % points.length]!
            return s + x * v - u * y
          }, 0) / 2,
        )
      )
    }, 0)

describe('region of a grid', () => {
  const side = Array.from({ length: 41 }, (_, i) => i * 10)
  const grid = (f: (c: number, r: number) => number) => ({
    columns: side,
    rows: side,
    values: side.flatMap((c) => side.map((r) => f(c, r))),
  })
  const place = (c: number, r: number) => [c, r] as const

  it('of a plane is cut along a straight line: exact area', () => {
    expect(
      areaOf(
        regionPath(
          grid((c, r) => c + r),
          400,
          place,
        ),
      ),
    ).toBeCloseTo(80000, -1)
  })
  // Chords of a circle on a grid of a twentieth of its radius: 0.3 % of its area.
  it('of a cone is a disc', () => {
    const d = regionPath(
      grid((c, r) => 200 - Math.hypot(c - 200, r - 200)),
      50,
      place,
    )
    expect(Math.abs(areaOf(d) / (Math.PI * 150 ** 2) - 1)).toBeLessThan(3e-3)
  })
  it('is empty above everything and whole below', () => {
    const flat = grid(() => 1)
    expect(regionPath(flat, 2, place)).toBe('')
    expect(areaOf(regionPath(flat, 0.5, place))).toBe(160000)
  })
})

describe('levels and ticks', () => {
  it('are round', () => {
    expect(roundLevels(0.137, 5)).toEqual([0.005, 0.01, 0.02, 0.05, 0.1])
    expect(roundLevels(0, 5)).toEqual([])
    expect(ticks({ from: 0, to: 1.7, log: false }, 4)).toEqual([0, 0.5, 1, 1.5])
    expect(ticks({ from: 1e-4, to: 2e-3, log: true }, 6)).toEqual([1e-4, 2e-4, 5e-4, 1e-3, 2e-3])
  })
  it('lie where the axis says', () => {
    expect(along({ from: 1, to: 100, log: true }, 10)).toBeCloseTo(0.5, 12)
    expect(along({ from: 2, to: 4, log: false }, 2.5)).toBeCloseTo(0.25, 12)
  })
})

describe('words', () => {
  it('are pushed apart about their middle, and left alone where they have room', () => {
    expect(pushApart([100, 95, 40], 20)).toEqual([105, 85, 45])
    expect(pushApart([100, 70, 40], 20)).toEqual([100, 70, 40])
    expect(pushApart([], 20)).toEqual([])
  })
})

describe('drawings say in words what they show', () => {
  it('a chart names its marks', () => {
    const show = (v: number) => String(v)
    const node = chart({
      title: 'Loss',
      x: { from: 1, to: 10, log: true, name: 'x', show },
      y: { from: 0, to: 10, log: false, name: 'y', show },
      curves: [{ name: 'loss', x: [1, 10], y: [2, 8], kind: 'main' }],
      marks: [{ x: 3, y: 5, words: 'now', kind: 'now' }],
    })
    expect(node.attributes['aria-label']).toBe('Loss. loss. now at 3, 5.')
    expect(toMarkup(node)).not.toContain('NaN')
  })
  it('the calliper drawing names every dimension', () => {
    const node = calliperDrawing({
      ...{ A_m: 25e-3, B_m: 12.5e-3, C_m: 7e-3, D_m: 8.7e-3, E_m: 17.5e-3, F_m: 7e-3 },
      round: false,
      marked: 'E',
    })
    for (const letter of 'ABCDEF') expect(node.attributes['aria-label']).toContain(`${letter}:`)
    expect(toMarkup(node)).toContain('is-marked')
  })
})
