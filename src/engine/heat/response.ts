import { symmetricEigen } from './eigen.ts'
import { assemble, type HeatInput, heatVector, type ThermalFailure, type ThermalNetwork } from './network.ts'
import { steadyTemperatures } from './steady.ts'

export interface ThermalResponse {
  readonly ok: true
  readonly names: readonly string[]
  /** Time constants of the network, longest first, s. */
  readonly timeConstants_s: readonly number[]
  readonly steady_C: Readonly<Record<string, number>>
  /** Temperatures at a time after the heat is switched on, in node order. */
  readonly at: (time_s: number) => Float64Array
  /** Time after which every node stays within `band_K` of its steady temperature, s. */
  readonly settle: (band_K: number) => number
}

/**
 * Exact response of a thermal network to heat switched on at time zero: T(t) = Tsteady + sum of decaying modes, from
 * the eigenvectors of the symmetric matrix C^-1/2 G C^-1/2. `start_C` gives first temperatures (default: every node
 * at the temperature it has without heat).
 */
export function thermalResponse(
  network: ThermalNetwork,
  heat_W: HeatInput,
  start_C?: Readonly<Record<string, number>>,
): ThermalResponse | ThermalFailure {
  const m = assemble(network)
  if (!m.ok) return m
  const heat = heatVector(m.names, heat_W)
  if (!(heat instanceof Float64Array)) return heat
  const steady = steadyTemperatures(network, heat_W)
  if (!steady.ok) return steady
  const rest = steadyTemperatures(network, {})
  if (!rest.ok) return rest

  const n = m.names.length
  const root = m.capacity.map(Math.sqrt)
  const symmetric = m.conductance.map((g, k) => g / (root[Math.floor(k / n)]! * root[k % n]!))
  const { values, vectors } = symmetricEigen(symmetric, n)
  const final = Float64Array.from(m.names, (name) => steady.temperature_C[name]!)
  const begin = Float64Array.from(m.names, (name) => start_C?.[name] ?? rest.temperature_C[name]!)
  const modal = new Float64Array(n)
  for (let k = 0; k < n; k++)
    for (let i = 0; i < n; i++) modal[k]! += vectors[i * n + k]! * root[i]! * (begin[i]! - final[i]!)

  const at = (time_s: number): Float64Array => {
    const out = Float64Array.from(final)
    for (let k = 0; k < n; k++) {
      const amount = modal[k]! * Math.exp(-values[k]! * time_s)
      for (let i = 0; i < n; i++) out[i]! += (vectors[i * n + k]! * amount) / root[i]!
    }
    return out
  }
  const slowest = 1 / values.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY)
  const part = new Float64Array(n)
  /** Greatest distance from steady over all nodes; or, with every mode at its worst sign, a bound that only falls. */
  const away = (t: number, bound: boolean): number => {
    for (let k = 0; k < n; k++) part[k] = modal[k]! * Math.exp(-values[k]! * t)
    let worst = 0
    for (let i = 0; i < n; i++) {
      let sum = 0
      for (let k = 0; k < n; k++) {
        const term = vectors[i * n + k]! * part[k]!
        sum += bound ? Math.abs(term) : term
      }
      worst = Math.max(worst, Math.abs(sum) / root[i]!)
    }
    return worst
  }
  const settle = (band_K: number): number => {
    let high = 0
    for (let low = 0, top = 80 * slowest, k = 0; k < 50; k++) {
      high = 0.5 * (low + top)
      if (away(high, true) > band_K) low = high
      else top = high
    }
    const step = slowest / 50
    while (high > 0 && away(Math.max(0, high - step), false) <= band_K) high -= step
    let low = Math.max(0, high - step)
    for (let k = 0; k < 40 && high > 0; k++) {
      const t = 0.5 * (low + high)
      if (away(t, false) > band_K) low = t
      else high = t
    }
    return Math.max(0, high)
  }
  return {
    ok: true,
    names: m.names,
    timeConstants_s: Array.from(values, (x) => 1 / x).sort((a, b) => b - a),
    steady_C: steady.temperature_C,
    at,
    settle,
  }
}
