/** Columns of a run over time, one row a bin of some clock periods; units in the names. */
export const traceColumns = [
  'time_s',
  'drainMost_V',
  'currentMost_A',
  'primaryMost_A',
  'outputLeast_V',
  'outputMost_V',
  'output_V',
  'reverseMost_V',
  'clamp_V',
  'bias_V',
  'control_A',
  'junction_C',
] as const
export type TraceColumn = (typeof traceColumns)[number]
export type TraceRow = Readonly<Record<TraceColumn, number>>
export type RunTrace = Readonly<Record<TraceColumn, Float64Array>>

/** Rows kept; twice as many are halved. */
const mostRows = 3000

const merged = (column: TraceColumn, a: number, b: number): number => {
  if (column.includes('Most') || column === 'time_s' || column === 'junction_C') return Math.max(a, b)
  if (column.includes('Least')) return Math.min(a, b)
  return (a + b) / 2
}

/** Collects rows of a run in bounded memory: when there are too many, neighbours become one, extremes kept. */
export class TraceBook {
  private rows: number[][] = traceColumns.map(() => [])
  /** Bins that make one row now, and those waiting for their row. */
  private share = 1
  private waiting: TraceRow[] = []

  add(row: TraceRow): void {
    this.waiting.push(row)
    if (this.waiting.length < this.share) return
    traceColumns.forEach((column, c) => {
      this.rows[c]!.push(this.waiting.map((r) => r[column]).reduce((a, b) => merged(column, a, b)))
    })
    this.waiting = []
    if (this.rows[0]!.length < 2 * mostRows) return
    this.rows = this.rows.map((values, c) => {
      const half: number[] = []
      for (let i = 0; i + 1 < values.length; i += 2)
        half.push(merged(traceColumns[c]!, values[i]!, values[i + 1]!))
      return half
    })
    this.share *= 2
  }

  close(): RunTrace {
    const columns = {} as Record<TraceColumn, Float64Array>
    traceColumns.forEach((column, c) => {
      columns[column] = Float64Array.from(this.rows[c]!)
    })
    return columns
  }
}
