import type { Circuit } from './circuit.ts'
import { inverse } from './dense.ts'
import type { Structure } from './structure.ts'

/** All states from the free ones and the inputs (value of input u at inputs[u * stride]). */
export function spreadStates(
  structure: Structure,
  free: Float64Array,
  inputs: Float64Array,
  stride: number,
): Float64Array {
  const { states } = structure
  const n = structure.free.length
  const u = states > 0 ? structure.spreadInputs.length / states : 0
  const out = new Float64Array(states)
  for (let s = 0; s < states; s++) {
    let value = 0
    for (let j = 0; j < n; j++) value += structure.spread[s * n + j]! * free[j]!
    for (let j = 0; j < u; j++) value += structure.spreadInputs[s * u + j]! * inputs[j * stride]!
    out[s] = value
  }
  return out
}

/**
 * States nearest to `given` in stored energy which satisfy the ties: charge redistributes around capacitor
 * loops and flux around inductor cutsets, as an impulse would do it.
 */
export function tieStates(
  circuit: Circuit,
  devices: ArrayLike<number>,
  given: Float64Array,
  inputs: Float64Array,
  stride: number,
): Float64Array {
  const { layout, structure } = circuit
  const { tieCount: k, ties, tieInputs } = structure
  const out = given.slice()
  if (k === 0) return out
  const x = given.length
  const u = layout.inputs.length
  const nC = layout.caps.length
  const nL = layout.inductors.length
  const l = layout.inductance.slice()
  layout.devices.forEach((device, d) => {
    if (device.kind === 'core') l[device.inductor * nL + device.inductor] = device.inductance[devices[d]!]!
  })
  const invL = nL > 0 ? inverse(l, nL) : new Float64Array(0)
  // moved = W^-1 ties'
  const moved = new Float64Array(x * k)
  for (let t = 0; t < k; t++) {
    for (let c = 0; c < nC; c++) moved[c * k + t] = ties[t * x + c]! / layout.caps[c]!.farad
    for (let i = 0; i < nL; i++)
      for (let j = 0; j < nL; j++)
        moved[(nC + i) * k + t]! += (invL?.[i * nL + j] ?? 0) * ties[t * x + nC + j]!
  }
  const m = new Float64Array(k * k)
  const error = new Float64Array(k)
  for (let t = 0; t < k; t++) {
    for (let s = 0; s < x; s++) {
      error[t]! += ties[t * x + s]! * given[s]!
      for (let q = 0; q < k; q++) m[t * k + q]! += ties[t * x + s]! * moved[s * k + q]!
    }
    for (let j = 0; j < u; j++) error[t]! += tieInputs[t * u + j]! * inputs[j * stride]!
  }
  const inv = inverse(m, k)
  if (inv === undefined) return out
  for (let s = 0; s < x; s++)
    for (let t = 0; t < k; t++)
      for (let q = 0; q < k; q++) out[s]! -= moved[s * k + t]! * inv[t * k + q]! * error[q]!
  return out
}
