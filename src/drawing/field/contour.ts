/** Values on a grid: index column · rows + row, at rising places of columns and rows. */
export interface Grid {
  readonly columns: ArrayLike<number>
  readonly rows: ArrayLike<number>
  readonly values: ArrayLike<number>
}

type Corner = readonly [column: number, row: number, value: number]

const round = (value: number): number => Math.round(value * 10) / 10

/** The part of a quadrilateral in which the value, straight along its edges, is at least a level. */
const clip = (corners: readonly Corner[], level: number): [number, number][] => {
  const kept: [number, number][] = []
  corners.forEach((a, i) => {
    const b = corners[(i + 1) % corners.length]!
    if (a[2] >= level) kept.push([a[0], a[1]])
    if (a[2] >= level !== b[2] >= level) {
      const share = (level - a[2]) / (b[2] - a[2])
      kept.push([a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])])
    }
  })
  return kept
}

/**
 * Outline of the region in which a grid is at least a level, as the data of a path: runs of whole cells as one
 * rectangle, cells at the edge cut along straight lines. `place` turns column and row positions into x and y.
 */
export function regionPath(
  grid: Grid,
  level: number,
  place: (column: number, row: number) => readonly [x: number, y: number],
): string {
  const { columns, rows, values } = grid
  const count = rows.length
  const at = (c: number, r: number): Corner => [columns[c]!, rows[r]!, values[c * count + r]!]
  const pieces: string[] = []
  const add = (points: readonly (readonly [number, number])[]) => {
    if (points.length < 3) return
    pieces.push(`M${points.map(([c, r]) => place(c, r).map(round).join(' ')).join('L')}Z`)
  }
  for (let c = 0; c + 1 < columns.length; c++) {
    let from = -1
    const flush = (to: number) => {
      if (from < 0) return
      const [a, b] = [columns[c]!, columns[c + 1]!]
      add([
        [a, rows[from]!],
        [a, rows[to]!],
        [b, rows[to]!],
        [b, rows[from]!],
      ])
      from = -1
    }
    for (let r = 0; r + 1 < count; r++) {
      const corners = [at(c, r), at(c, r + 1), at(c + 1, r + 1), at(c + 1, r)]
      const inside = corners.filter(([, , value]) => value >= level).length
      if (inside === 4) {
        if (from < 0) from = r
        continue
      }
      flush(r)
      if (inside > 0) add(clip(corners, level))
    }
    flush(count - 1)
  }
  return pieces.join('')
}

/** Round levels 1, 2, 5 … below a greatest value, rising, `count` of them. */
export function roundLevels(greatest: number, count: number): number[] {
  if (!(greatest > 0)) return []
  const levels: number[] = []
  let decade = 10 ** Math.floor(Math.log10(greatest))
  for (;;) {
    for (const step of [5, 2, 1]) {
      const level = step * decade
      if (level < greatest) levels.unshift(Number(level.toPrecision(1)))
      if (levels.length === count) return levels
    }
    decade /= 10
  }
}
