/** Bare diameter of an American wire gauge size, metres: `0.127 mm * 92^((36 - n)/39)`, ASTM B258. For 0 to 50. */
export const awgDiameter_m = (gauge: number) => 0.127e-3 * 92 ** ((36 - gauge) / 39)

/** British standard wire gauge 10 to 50 in thousandths of an inch; BS 3737, from memory. */
const swg_thou = [
  128, 116, 104, 92, 80, 72, 64, 56, 48, 40, 36, 32, 28, 24, 22, 20, 18, 16.4, 14.8, 13.6, 12.4, 11.6, 10.8,
  10, 9.2, 8.4, 7.6, 6.8, 6, 5.2, 4.8, 4.4, 4, 3.6, 3.2, 2.8, 2.4, 2, 1.6, 1.2, 1,
] as const

/** Bare diameter of a British standard wire gauge size 10 to 50, metres; undefined for other numbers. */
export const swgDiameter_m = (gauge: number) => {
  const thou = swg_thou[gauge - 10]
  return thou === undefined ? undefined : thou * 25.4e-6
}

/**
 * Bare diameter in metres of `AWG 28`, `28 AWG`, `awg28`, `28 swg`. Undefined when the text names no gauge; a
 * sentence when it names a size that does not exist.
 */
export function readGauge(text: string): number | string | undefined {
  const found = /^(?:(awg|swg)\s*(?:no\.?\s*|#\s*)?(\d{1,2})|#?(\d{1,2})\s*(awg|swg))$/i.exec(text)
  if (!found) return undefined
  const system = (found[1] ?? found[4])!.toUpperCase()
  const size = Number(found[2] ?? found[3])
  if (system === 'AWG') return size <= 50 ? awgDiameter_m(size) : `AWG runs from 0 to 50, not ${size}`
  return swgDiameter_m(size) ?? `SWG runs from 10 to 50 here, not ${size}`
}
