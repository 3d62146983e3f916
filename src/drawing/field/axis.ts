/** One axis of a chart: a range, straight or logarithmic. */
export interface Axis {
  readonly from: number
  readonly to: number
  readonly log: boolean
}

/** Place along an axis, 0 to 1. */
export const along = ({ from, to, log }: Axis, value: number): number =>
  log ? Math.log(value / from) / Math.log(to / from) : (value - from) / (to - from)

/** Round values inside an axis: 1, 2, 5 steps; about `wanted` of them. */
export function ticks(axis: Axis, wanted: number): number[] {
  return axis.log ? logTicks(axis, wanted) : evenTicks(axis, wanted)
}

function evenTicks({ from, to }: Axis, wanted: number): number[] {
  const raw = (to - from) / Math.max(1, wanted)
  const decade = 10 ** Math.floor(Math.log10(raw))
  const step = decade * ([1, 2, 5, 10].find((s) => s * decade >= raw) ?? 10)
  const first = Math.ceil(from / step - 1e-9)
  const last = Math.floor(to / step + 1e-9)
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) =>
    Number(((first + i) * step).toPrecision(12)),
  )
}

function logTicks({ from, to }: Axis, wanted: number): number[] {
  const all: number[] = []
  for (let e = Math.floor(Math.log10(from)); e <= Math.ceil(Math.log10(to)); e++)
    for (const s of [1, 2, 5]) {
      const value = Number((s * 10 ** e).toPrecision(12))
      if (value >= from * (1 - 1e-9) && value <= to * (1 + 1e-9)) all.push(value)
    }
  if (all.length <= wanted + 2) return all
  return all.filter((value) => Math.abs(Math.log10(value) - Math.round(Math.log10(value))) < 1e-9)
}
