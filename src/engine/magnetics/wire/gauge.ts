import { readGauge } from '../../quantity/index.ts'

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
  const gauge = readGauge(clean)
  if (gauge === undefined)
    return { ok: false, message: `wire size ${text.trim()} is not millimetres, AWG or SWG` }
  return typeof gauge === 'string' ? { ok: false, message: gauge } : { ok: true, bare_m: gauge }
}
