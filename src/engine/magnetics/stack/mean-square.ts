import { sheetHarmonics } from './layer-sheets.ts'
import type { StackLayout } from './types.ts'
import { wavesOf } from './waves.ts'

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

const withRoom = (layers: number, windings: number) => ({
  layers,
  windings,
  along: new Float64Array(layers * samples * windings),
  across: new Float64Array(layers * samples * windings),
  index: new Int32Array(layers),
  below: new Float64Array(layers * windings),
  turns: new Float64Array(windings),
  mmf: new Float64Array(windings),
  running: new Float64Array(windings),
  inner: new Float64Array(windings),
  outer: new Float64Array(windings),
  axial: new Float64Array(windings),
  radial: new Float64Array(windings),
})
let room = withRoom(0, 0)

/** Arrays for so many layers and windings, used anew from call to call. */
function roomFor(layers: number, windings: number): typeof room {
  if (layers > room.layers || windings > room.windings)
    room = withRoom(Math.max(layers, room.layers), Math.max(windings, room.windings))
  return room
}

/**
 * Mean square field in every layer from the layout alone, in about ten microseconds: harmonic 0 is the
 * magnetomotive-force diagram over the window height, harmonics 2, 4, … are those of flat sheets between walls of high
 * permeability (see `leakageClosedForm`), with the net ampere-turns closed at gaps in the middle of post and outer
 * legs. Current is positive into every start.
 */
export const layerFields = (layout: StackLayout, gap: GapShares): LayerFields => {
  const { windings, layers, input } = layout
  const number = windings.length
  const { sheets, amplitude, wide, inner: falls, across: throughs } = wavesOf(layout)
  const { count, thickness_m, span_m } = sheets
  const height_m = input.core.height_m
  const square = new Float64Array(count * number * number)
  const { along, across, turns, index, below, running, inner, outer, axial, radial, mmf } = roomFor(
    count,
    number,
  )
  across.fill(0, 0, count * samples * number)
  turns.fill(0, 0, number)
  for (let i = 0; i < count; i++) {
    index[i] = windings.indexOf(layers[i]!.winding)
    turns[index[i]!]! += layers[i]!.turns
  }

  const atPost = gap.post + (1 - gap.post - gap.outerLegs) / 2
  for (let w = 0; w < number; w++) mmf[w] = atPost * turns[w]!
  for (let i = 0; i < count; i++) {
    mmf[index[i]!]! -= layers[i]!.turns / 2
    for (let s = 0; s < samples; s++)
      for (let w = 0; w < number; w++) along[(i * samples + s) * number + w] = mmf[w]! / height_m
    mmf[index[i]!]! -= layers[i]!.turns / 2
  }

  const scale = 2 / height_m
  for (let m = 1; m <= sheetHarmonics; m++) {
    const k = (2 * m * Math.PI) / height_m
    const row = (m - 1) * count
    const through = throughs[m - 1]!
    for (let w = 0; w < number; w++) {
      running[w] = -scale * gap.post * turns[w]!
      inner[w] = running[w]! - scale * gap.outerLegs * turns[w]! * through
      outer[w] = running[w]! * through - scale * gap.outerLegs * turns[w]!
    }
    let previous = 1
    for (let i = 0; i < count; i++) {
      const broad = scale * layers[i]!.turns * wide[row + i]!
      const fall = falls[row + i]!
      const step = fall / previous
      previous = fall
      for (let w = 0; w < number; w++) {
        running[w]! *= step
        below[i * number + w] = running[w]!
      }
      running[index[i]!]! += broad
      inner[index[i]!]! += broad * fall
      outer[index[i]!]! += (broad * through) / fall
    }
    for (let w = 0; w < number; w++) running[w] = -scale * gap.outerLegs * turns[w]!
    previous = through
    const image = 1 / (2 * (1 - through * through))
    for (let i = count - 1; i >= 0; i--) {
      const fall = falls[row + i]!
      const step = previous / fall
      previous = fall
      const rise = through / fall
      const amount = scale * layers[i]!.turns * amplitude[row + i]!
      const thick = k * thickness_m[i]!
      for (let w = 0; w < number; w++) {
        running[w]! *= step
        const left = below[i * number + w]!
        const right = running[w]!
        const fromInner = fall * (inner[w]! + through * outer[w]!) * image
        const fromOuter = rise * (outer[w]! + through * inner[w]!) * image
        axial[w] = (right - left) / 2 - fromInner + fromOuter
        radial[w] = (left + right) / 2 + fromInner + fromOuter
      }
      radial[index[i]!]! += (amount * (1 - Math.exp(-thick / 2))) / thick
      // Angle to sample s along half the span, by rotation.
      const half = (k * span_m[i]!) / (4 * samples)
      let c = Math.cos(half)
      let s = Math.sin(half)
      const turnC = c * c - s * s
      const turnS = 2 * s * c
      for (let p = 0, at = i * samples * number; p < samples; p++) {
        for (let w = 0; w < number; w++, at++) {
          along[at]! += axial[w]! * c
          across[at]! += radial[w]! * s
        }
        const next = c * turnC - s * turnS
        s = s * turnC + c * turnS
        c = next
      }
      running[index[i]!]! += scale * layers[i]!.turns * wide[row + i]!
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
