import { assemble, type HeatInput, heatVector, type ThermalFailure, type ThermalNetwork } from './network.ts'

export type Temperatures =
  | { readonly ok: true; readonly temperature_C: Readonly<Record<string, number>> }
  | ThermalFailure

/**
 * Steady temperatures of a thermal network: G T = inflow + heat, by Cholesky factors (G is symmetric and positive
 * definite as soon as every node has a path to a fixed temperature; `floating` otherwise).
 */
export function steadyTemperatures(network: ThermalNetwork, heat_W: HeatInput): Temperatures {
  const m = assemble(network)
  if (!m.ok) return m
  const heat = heatVector(m.names, heat_W)
  if (!(heat instanceof Float64Array)) return heat
  const right = heat.map((q, k) => q + m.inflow_W[k]!)
  const bad = solveSymmetric(Float64Array.from(m.conductance), right)
  if (bad >= 0)
    return {
      ok: false,
      code: 'floating',
      message: `thermal node ${m.names[bad]} has no path to a fixed temperature`,
    }
  return { ok: true, temperature_C: Object.fromEntries(m.names.map((name, k) => [name, right[k]!])) }
}

/**
 * Solves a symmetric positive definite system in place (matrix row-major, destroyed; right-hand side becomes the
 * solution). Returns -1, or the row at which the matrix is not positive definite.
 */
function solveSymmetric(a: Float64Array, b: Float64Array): number {
  const n = b.length
  for (let j = 0; j < n; j++) {
    const first = a[j * n + j]!
    let diagonal = first
    for (let k = 0; k < j; k++) diagonal -= a[j * n + k]! ** 2
    if (!(diagonal > 1e-12 * first)) return j
    const root = Math.sqrt(diagonal)
    a[j * n + j] = root
    for (let i = j + 1; i < n; i++) {
      let sum = a[i * n + j]!
      for (let k = 0; k < j; k++) sum -= a[i * n + k]! * a[j * n + k]!
      a[i * n + j] = sum / root
    }
  }
  for (let i = 0; i < n; i++) {
    let sum = b[i]!
    for (let k = 0; k < i; k++) sum -= a[i * n + k]! * b[k]!
    b[i] = sum / a[i * n + i]!
  }
  for (let i = n - 1; i >= 0; i--) {
    let sum = b[i]!
    for (let k = i + 1; k < n; k++) sum -= a[k * n + i]! * b[k]!
    b[i] = sum / a[i * n + i]!
  }
  return -1
}
