/** Cells that lie together and are bound by one limit. */
export interface Region {
  readonly limit: string
  readonly cells: readonly number[]
}

/** Smaller regions carry no mark. */
const least = 4

/** Connected cells of one limit, the largest first; a null belongs to no region. */
export function regionsOf(limits: readonly (string | null)[], columns: number): Region[] {
  const seen = new Set<number>()
  const found: Region[] = []
  limits.forEach((limit, start) => {
    if (limit === null || seen.has(start)) return
    const cells: number[] = []
    const queue = [start]
    seen.add(start)
    for (let i = queue.pop(); i !== undefined; i = queue.pop()) {
      cells.push(i)
      const column = i % columns
      for (const j of [column > 0 ? i - 1 : -1, column < columns - 1 ? i + 1 : -1, i - columns, i + columns])
        if (j >= 0 && j < limits.length && !seen.has(j) && limits[j] === limit) {
          seen.add(j)
          queue.push(j)
        }
    }
    found.push({ limit, cells })
  })
  return found.filter(({ cells }) => cells.length >= least).sort((a, b) => b.cells.length - a.cells.length)
}

/** A block of cells: its lower left one, and how many it is wide and high. */
interface Block {
  readonly from: number
  readonly across: number
  readonly down: number
}

/** Words in lines of at most so many letters. */
function broken(words: string, letters: number): string[] {
  const lines: string[] = []
  for (const word of words.split(' ')) {
    const last = lines.at(-1)
    if (last !== undefined && last.length + 1 + word.length <= letters)
      lines[lines.length - 1] = `${last} ${word}`
    else lines.push(word)
  }
  return lines
}

/** Lengths of line that are tried, in letters: from few lines to many. */
const lengths = [40, 28, 20, 14, 10]

/**
 * Where a name goes inside a region: in the fewest lines that have room, on the block of cells nearest to the region's
 * middle; no lines, and the cell nearest to the middle, where the name has no room at all.
 */
export function namePlace(
  name: string,
  cells: readonly number[],
  columns: number,
  room: { readonly across: (letters: number) => number; readonly down: (lines: number) => number },
): { readonly lines: readonly string[]; readonly at: Block } {
  const mine = new Set(cells)
  const mean = (pick: (i: number) => number) => cells.reduce((sum, i) => sum + pick(i), 0) / cells.length
  const column = mean((i) => i % columns)
  const row = mean((i) => Math.floor(i / columns))
  const free = ({ from, across, down }: Block): boolean => {
    if ((from % columns) + across > columns) return false
    for (let r = 0; r < down; r++)
      for (let c = 0; c < across; c++) if (!mine.has(from + r * columns + c)) return false
    return true
  }
  const far = ({ from, across, down }: Block): number =>
    Math.hypot(
      (from % columns) + (across - 1) / 2 - column,
      Math.floor(from / columns) + (down - 1) / 2 - row,
    )
  const best = (across: number, down: number): Block | null =>
    cells
      .map((from) => ({ from, across, down }))
      .filter(free)
      .reduce<Block | null>((a, b) => (a === null || far(b) < far(a) ? b : a), null)
  if (name !== '')
    for (const letters of lengths) {
      const lines = broken(name, letters)
      const at = best(room.across(Math.max(...lines.map((l) => l.length))), room.down(lines.length))
      if (at) return { lines, at }
    }
  return { lines: [], at: best(1, 1)! }
}
