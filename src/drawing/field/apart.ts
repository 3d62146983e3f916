/** Heights of words pushed apart by at least `least`, kept in their falling order, centred on where they belong. */
export function pushApart(wanted: readonly number[], least: number): number[] {
  const placed: number[] = []
  for (const y of wanted) placed.push(Math.min(y, (placed.at(-1) ?? Number.POSITIVE_INFINITY) - least))
  const lag = wanted.reduce((sum, y, i) => sum + y - placed[i]!, 0) / Math.max(1, wanted.length)
  return placed.map((y) => y + lag)
}
