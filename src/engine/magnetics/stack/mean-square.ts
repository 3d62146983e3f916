import { fieldWidth_m } from './barrel.ts'
import { layerSheets, sheetHarmonics } from './layer-sheets.ts'
import type { StackLayout } from './types.ts'

/** Share of the net ampere-turns that drops across gaps in the post and in the outer legs; the core takes the rest. */
export interface GapShares {
  readonly post: number
  readonly outerLegs: number
}

/** Field at the layers for one ampere in each winding, whatever the frequency. */
export interface LayerFields {
  readonly layout: StackLayout
  /** Mean over a layer's span of H_i H_j (1/m²): index (layer · windings + i) · windings + j. */
  readonly square: Float64Array
}

/** Points along half of a layer at which the field is taken. */
const samples = 7

/**
 * Mean square field in every layer from the layout alone, in about ten microseconds: harmonic 0 is the
 * magnetomotive-force diagram over the window height, harmonics 2, 4, … are those of flat sheets between walls of high
 * permeability (see `leakageClosedForm`), with the net ampere-turns closed at gaps in the middle of post and outer
 * legs. Current is positive into every start.
 */
export const layerFields = (layout: StackLayout, gap: GapShares): LayerFields => {
  const { windings, layers, input } = layout
  const number = windings.length
  const { count, x_m, thickness_m, span_m } = layerSheets(layout)
  const height_m = input.core.height_m
  const width_m = fieldWidth_m(layout)
  const square = new Float64Array(count * number * number)
  const along = new Float64Array(count * samples * number)
  const across = new Float64Array(count * samples * number)
  const turns = new Float64Array(number)
  const index = new Int32Array(count)
  for (let i = 0; i < count; i++) {
    index[i] = windings.indexOf(layers[i]!.winding)
    turns[index[i]!]! += layers[i]!.turns
  }

  const atPost = gap.post + (1 - gap.post - gap.outerLegs) / 2
  const mmf = turns.map((net) => atPost * net)
  for (let i = 0; i < count; i++) {
    mmf[index[i]!]! -= layers[i]!.turns / 2
    for (let s = 0; s < samples; s++)
      for (let w = 0; w < number; w++) along[(i * samples + s) * number + w] = mmf[w]! / height_m
    mmf[index[i]!]! -= layers[i]!.turns / 2
  }

  const below = new Float64Array(count * number)
  const running = new Float64Array(number)
  const inner = new Float64Array(number)
  const outer = new Float64Array(number)
  const amount = new Float64Array(count)
  const decayInner = new Float64Array(count)
  for (let m = 1; m <= sheetHarmonics; m++) {
    const k = (2 * m * Math.PI) / height_m
    const through = Math.exp(-k * width_m)
    const scale = 2 / height_m
    for (let w = 0; w < number; w++) {
      running[w] = -scale * gap.post * turns[w]!
      inner[w] = running[w]! - scale * gap.outerLegs * turns[w]! * through
      outer[w] = running[w]! * through - scale * gap.outerLegs * turns[w]!
    }
    let previous = 0
    for (let i = 0; i < count; i++) {
      const half = (k * span_m[i]!) / 2
      const thick = k * thickness_m[i]!
      amount[i] = (scale * layers[i]!.turns * Math.sin(half)) / half
      const wide = amount[i]! * (1 + (thick * thick) / 24)
      const step = Math.exp(-k * (x_m[i]! - previous))
      previous = x_m[i]!
      for (let w = 0; w < number; w++) {
        running[w]! *= step
        below[i * number + w] = running[w]!
      }
      running[index[i]!]! += wide
      const fall = Math.exp(-k * x_m[i]!)
      decayInner[i] = fall
      inner[index[i]!]! += wide * fall
      outer[index[i]!]! += (wide * through) / fall
    }
    for (let w = 0; w < number; w++) running[w] = -scale * gap.outerLegs * turns[w]!
    previous = width_m
    const image = 1 / (2 * (1 - through * through))
    for (let i = count - 1; i >= 0; i--) {
      const step = Math.exp(-k * (previous - x_m[i]!))
      previous = x_m[i]!
      const fall = decayInner[i]!
      const rise = through / fall
      const thick = k * thickness_m[i]!
      // Angle to sample s along half the span, by rotation.
      const turn = (k * span_m[i]!) / (2 * samples)
      const [turnC, turnS] = [Math.cos(turn), Math.sin(turn)]
      for (let w = 0; w < number; w++) {
        running[w]! *= step
        const own = w === index[i] ? amount[i]! : 0
        const left = below[i * number + w]!
        const right = running[w]!
        const fromInner = fall * (inner[w]! + through * outer[w]!) * image
        const fromOuter = rise * (outer[w]! + through * inner[w]!) * image
        const axial = (right - left) / 2 - fromInner + fromOuter
        const radial = (left + right) / 2 + fromInner + fromOuter + (own * (1 - Math.exp(-thick / 2))) / thick
        let c = Math.cos(turn / 2)
        let s = Math.sin(turn / 2)
        for (let p = 0; p < samples; p++) {
          const at = (i * samples + p) * number + w
          along[at]! += axial * c
          across[at]! += radial * s
          const next = c * turnC - s * turnS
          s = s * turnC + c * turnS
          c = next
        }
      }
      running[index[i]!]! += amount[i]! * (1 + (thick * thick) / 24)
    }
  }
  for (let i = 0; i < count; i++)
    for (let s = 0; s < samples; s++) {
      const at = (i * samples + s) * number
      for (let a = 0; a < number; a++)
        for (let b = 0; b < number; b++)
          square[(i * number + a) * number + b]! +=
            (along[at + a]! * along[at + b]! + across[at + a]! * across[at + b]!) / samples
    }
  return { layout, square }
}
