/** Bare diameter of an AWG size (m): d = 0.127 mm · 92^((36 − n)/39). 0000 is −3. Source: ASTM B258. */
export const awgDiameter_m = (gauge: number): number => 0.127e-3 * 92 ** ((36 - gauge) / 39)

/** AWG number (not rounded) of a bare diameter: the inverse of `awgDiameter_m`. */
export const awgGauge = (bare_m: number): number => 36 - (39 * Math.log(bare_m / 0.127e-3)) / Math.log(92)

/** Imperial standard wire gauge, sizes 10 to 50, in thousandths of an inch. Source: BS 3737, from memory. */
const swgThou = [
  128, 116, 104, 92, 80, 72, 64, 56, 48, 40, 36, 32, 28, 24, 22, 20, 18, 16.4, 14.8, 13.6, 12.4, 11.6, 10.8,
  10, 9.2, 8.4, 7.6, 6.8, 6, 5.2, 4.8, 4.4, 4, 3.6, 3.2, 2.8, 2.4, 2, 1.6, 1.2, 1,
] as const

/** Bare diameter of an SWG size (m), whole sizes 10 to 50; undefined outside the table. */
export const swgDiameter_m = (gauge: number): number | undefined => {
  const thou = swgThou[gauge - 10]
  return thou === undefined ? undefined : thou * 25.4e-6
}

/** Nearest SWG size of a bare diameter, by ratio. */
export const swgGauge = (bare_m: number): number => {
  let best = 10
  let distance = Number.POSITIVE_INFINITY
  swgThou.forEach((thou, index) => {
    const step = Math.abs(Math.log((thou * 25.4e-6) / bare_m))
    if (step < distance) {
      distance = step
      best = index + 10
    }
  })
  return best
}

export type WireSizeResult =
  | { readonly ok: true; readonly bare_m: number }
  | { readonly ok: false; readonly message: string }

/**
 * Bare diameter of a size as people write it: `0.4`, `0,4 mm`, `AWG 26`, `26 awg`, `SWG 27`. A bare number is
 * millimetres.
 */
export const parseWireSize = (text: string): WireSizeResult => {
  const clean = text.trim().toLowerCase().replace(',', '.')
  const metric = /^(\d*\.?\d+)\s*(mm)?$/.exec(clean)
  if (metric) {
    const bare_m = Number(metric[1]) / 1000
    return bare_m >= 1e-5 && bare_m <= 1e-2
      ? { ok: true, bare_m }
      : { ok: false, message: `wire size ${text.trim()} is outside 0.01 mm to 10 mm` }
  }
  const gauge = /^(?:(awg|swg)\s*(\d+)|(\d+)\s*(awg|swg))$/.exec(clean)
  if (!gauge) return { ok: false, message: `wire size ${text.trim()} is not millimetres, AWG or SWG` }
  const system = gauge[1] ?? gauge[4]
  const number = Number(gauge[2] ?? gauge[3])
  if (system === 'swg') {
    const bare_m = swgDiameter_m(number)
    return bare_m === undefined
      ? { ok: false, message: `SWG ${number} is outside 10 to 50` }
      : { ok: true, bare_m }
  }
  return number <= 50
    ? { ok: true, bare_m: awgDiameter_m(number) }
    : { ok: false, message: `AWG ${number} is above 50` }
}
