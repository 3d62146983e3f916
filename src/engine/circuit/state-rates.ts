import type { Layout } from './layout.ts'
import { columnsOf, type Setting } from './stamp.ts'
import type { Structure } from './structure.ts'

/** Adds `gain` times the rate of an inductor's current to a row over the unknowns. */
export function addInductorRate(
  layout: Layout,
  invL: Float64Array,
  inductor: number,
  gain: number,
  rows: Float64Array,
  at: number,
): void {
  const nL = layout.inductors.length
  for (let m = 0; m < nL; m++) {
    const f = gain * invL[inductor * nL + m]!
    if (f === 0) continue
    const { a, b } = layout.inductors[m]!
    if (a >= 0) rows[at + a]! += f
    if (b >= 0) rows[at + b]! -= f
  }
}

/** Rates of the free states as rows over (free | inputs | input rates), or over coordinates y with free = down y. */
export function stateRates(
  layout: Layout,
  structure: Structure,
  setting: Setting,
  solution: Float64Array,
  invL: Float64Array,
  down?: Float64Array,
): Float64Array {
  const { z, u } = columnsOf(layout)
  const n = structure.free.length
  const w = n + 2 * u
  const nC = layout.caps.length
  const nL = layout.inductors.length
  const out = new Float64Array(n * w)
  const pick = new Float64Array(z)
  structure.free.forEach((s, i) => {
    if (s < nC) {
      const cap = layout.caps[s]!
      for (let j = 0; j < w; j++) out[i * w + j] = solution[cap.z * w + j]! / cap.farad
      return
    }
    if (s < nC + nL) {
      pick.fill(0)
      addInductorRate(layout, invL, s - nC, 1, pick, 0)
      for (let r = 0; r < layout.nodes.length; r++) {
        const f = pick[r]!
        if (f !== 0) for (let j = 0; j < w; j++) out[i * w + j]! += f * solution[r * w + j]!
      }
      return
    }
    const d = layout.devices.findIndex(
      (device) => device.kind === 'conductor' && device.charge === s - nC - nL,
    )
    const device = layout.devices[d]!
    if (device.kind !== 'conductor') return
    if (down === undefined) out[i * w + i] = -1 / device.transit_s
    else for (let j = 0; j < n; j++) out[i * w + j] = -down[i * n + j]! / device.transit_s
    const state = setting.devices[d]!
    if (state !== 1) return
    const g = device.slope[1]!
    for (let j = 0; j < w; j++) {
      if (device.a >= 0) out[i * w + j]! += g * solution[device.a * w + j]!
      if (device.b >= 0) out[i * w + j]! -= g * solution[device.b * w + j]!
    }
    out[i * w + n]! += device.shift[1]!
  })
  return out
}
