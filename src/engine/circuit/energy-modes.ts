import { product } from './exponential.ts'
import type { Layout } from './layout.ts'
import { findModes, type Modes } from './modes.ts'
import type { Structure } from './structure.ts'

/** Weight of a free state in twice the stored energy, other free states zero. */
export function stateWeight(
  layout: Layout,
  structure: Structure,
  inductance: Float64Array,
  state: number,
): number {
  const n = structure.free.length
  const j = structure.free.indexOf(state)
  const nC = layout.caps.length
  const nL = layout.inductors.length
  if (state >= nC + nL) {
    const device = layout.devices.find((d) => d.kind === 'conductor' && d.charge === state - nC - nL)
    return device?.kind === 'conductor' ? 1 / (device.slope[1]! * device.transit_s) : 1
  }
  let total = 0
  layout.caps.forEach((cap, c) => {
    total += cap.farad * structure.spread[c * n + j]! ** 2
  })
  for (let l = 0; l < nL; l++) total += inductance[l * nL + l]! * structure.spread[(nC + l) * n + j]! ** 2
  return total
}

/** The matrix of the states in energy coordinates, fastest first, in which it is graded. */
export function energyMatrix(
  rates: Float64Array,
  n: number,
  width: number,
  weight: readonly number[],
): { a: Float64Array; sorted: number[] } {
  const speed = weight.map((_, i) => Math.abs(rates[i * width + i]!))
  for (let i = 0; i < n; i++)
    for (let j = 0; j < n; j++) {
      const cross = Math.abs(rates[i * width + j]! * rates[j * width + i]!)
      speed[i] = Math.max(speed[i]!, Math.sqrt(cross))
    }
  const sorted = weight.map((_, i) => i).sort((i, j) => speed[j]! - speed[i]!)
  const a = new Float64Array(n * n)
  for (let i = 0; i < n; i++)
    for (let j = 0; j < n; j++) {
      const from = sorted[i]!
      const to = sorted[j]!
      a[i * n + j] = (rates[from * width + to]! * weight[from]!) / weight[to]!
    }
  return { a, sorted }
}

/** Modes of rates over coordinates y with states = down y, in those of the states, and the vectors over y. */
export function modesThrough(
  rates: Float64Array,
  up: Float64Array,
  down: Float64Array,
  width: number,
  stateWeights: readonly number[],
): { readonly modes: Modes; readonly own: Pick<Modes, 'vRe' | 'vIm'> } | undefined {
  const n = stateWeights.length
  const weight = stateWeights.map((_, j) =>
    Math.sqrt(stateWeights.reduce((sum, w, i) => sum + (w * down[i * n + j]!) ** 2, 0)),
  )
  const found = modesOf(energyMatrix(rates, n, width, weight), n, weight)
  if (found === undefined) return undefined
  const { count, vRe, vIm, wRe, wIm } = found
  const modes = {
    ...found,
    vRe: product(down, vRe, n, n, count),
    vIm: product(down, vIm, n, n, count),
    wRe: product(wRe, up, count, n, n),
    wIm: product(wIm, up, count, n, n),
  }
  return { modes, own: { vRe, vIm } }
}

/** Modes of a matrix in energy coordinates, in those of the states. */
export function modesOf(
  { a, sorted }: { readonly a: Float64Array; readonly sorted: readonly number[] },
  n: number,
  weight: readonly number[],
): Modes | undefined {
  const found = findModes(a, n)
  return found === undefined ? undefined : physicalModes(found, n, sorted, weight)
}

/** Undo ordering and energy weights. */
function physicalModes(found: Modes, n: number, sorted: readonly number[], weight: readonly number[]): Modes {
  const { count } = found
  const vRe = new Float64Array(n * count)
  const vIm = new Float64Array(n * count)
  const wRe = new Float64Array(count * n)
  const wIm = new Float64Array(count * n)
  for (let i = 0; i < n; i++) {
    const s = sorted[i]!
    for (let k = 0; k < count; k++) {
      vRe[s * count + k] = found.vRe[i * count + k]! / weight[s]!
      vIm[s * count + k] = found.vIm[i * count + k]! / weight[s]!
      wRe[k * n + s] = found.wRe[k * n + i]! * weight[s]!
      wIm[k * n + s] = found.wIm[k * n + i]! * weight[s]!
    }
  }
  return { ...found, vRe, vIm, wRe, wIm }
}
