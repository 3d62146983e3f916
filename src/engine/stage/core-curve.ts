import { currentAtFall, fluxAtCurrent, inductanceAtCurrent } from '../magnetics/material/gapped.ts'
import type { Design } from '../supply/design.ts'
import { woundCoreAt } from '../supply/transformer/inductance-curves.ts'

/** Falls of inductance at which the curve bends. */
const falls = [0.08, 0.35, 0.65, 0.85] as const

export interface CoreKnee {
  readonly current_A: number
  readonly beyond_H: number
}

/**
 * Magnetising curve of the gapped core as straight pieces: the inductance of the corner up to the current at which
 * it has fallen by 8 %, then the mean slope of flux linkage between the bends. The curve of the ferrite at its
 * temperature with the gap of the design, scaled so that its start is the inductance of the corner: a larger
 * inductance saturates at a smaller current in the same proportion.
 */
export function coreKnees(d: Design, temperature_C: number, inductance_H: number): CoreKnee[] {
  const core = woundCoreAt(d, temperature_C)
  const first = inductanceAtCurrent(core, 0)
  if (!first.ok) return []
  const scale = first.value / inductance_H
  const bends: { current_A: number; linkage_Vs: number }[] = []
  for (const fall of falls) {
    const current = currentAtFall(core, fall)
    if (!current.ok) break
    const flux = fluxAtCurrent(core, current.value)
    if (!flux.ok) break
    bends.push({ current_A: current.value, linkage_Vs: flux.value * core.turns * core.area_m2 })
  }
  const last = bends.at(-1)
  if (last === undefined) return []
  const far = inductanceAtCurrent(core, 1.5 * last.current_A)
  const air_H = far.ok ? far.value : 0.1 * first.value
  return bends.map(({ current_A, linkage_Vs }, i) => {
    const next = bends[i + 1]
    const slope_H = next ? (next.linkage_Vs - linkage_Vs) / (next.current_A - current_A) : air_H
    return { current_A: current_A * scale, beyond_H: Math.max(1e-9, slope_H / scale) }
  })
}
