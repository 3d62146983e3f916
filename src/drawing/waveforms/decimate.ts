export interface Points {
  readonly x: Float64Array
  readonly y: Float64Array
}

/**
 * A waveform thinned for the eye between two instants: at most `columns` stripes, each with its first, least, greatest
 * and last point in their order, so that no spike is lost. Times must rise; the ends are interpolated.
 */
export function decimate(
  x: ArrayLike<number>,
  y: ArrayLike<number>,
  from: number,
  to: number,
  columns: number,
): Points {
  const first = Math.max(0, lowerBound(x, from) - 1)
  const last = Math.min(x.length - 1, lowerBound(x, to))
  const outX: number[] = []
  const outY: number[] = []
  const put = (i: number) => {
    if (outX.length > 0 && x[i]! === outX.at(-1) && y[i]! === outY.at(-1)) return
    outX.push(x[i]!)
    outY.push(y[i]!)
  }
  if (last - first < 4 * columns) for (let i = first; i <= last; i++) put(i)
  else {
    const width = (to - from) / columns
    let i = first
    while (i <= last) {
      const end = from + (Math.floor((x[i]! - from) / width) + 1) * width
      let low = i
      let high = i
      let j = i
      while (j <= last && x[j]! < end) {
        if (y[j]! < y[low]!) low = j
        if (y[j]! > y[high]!) high = j
        j++
      }
      if (j === i) j++
      for (const k of [i, Math.min(low, high), Math.max(low, high), j - 1]) put(k)
      i = j
    }
  }
  return { x: Float64Array.from(outX), y: Float64Array.from(outY) }
}

/** First index at which x is not below a value. */
export function lowerBound(x: ArrayLike<number>, value: number): number {
  let low = 0
  let high = x.length
  while (low < high) {
    const middle = (low + high) >> 1
    if (x[middle]! < value) low = middle + 1
    else high = middle
  }
  return low
}

/** Value at an instant, straight between points, held at the ends. */
export function valueAt(x: ArrayLike<number>, y: ArrayLike<number>, at: number): number {
  const i = lowerBound(x, at)
  if (i === 0) return y[0] ?? 0
  if (i >= x.length) return y[x.length - 1] ?? 0
  const span = x[i]! - x[i - 1]!
  return span > 0 ? y[i - 1]! + ((y[i]! - y[i - 1]!) * (at - x[i - 1]!)) / span : y[i]!
}
