import { fieldWidth_m } from './barrel.ts'
import { type LayerSheets, layerSheets, sheetHarmonics, thickFactor } from './layer-sheets.ts'
import type { StackLayout } from './types.ts'

/** What the closed forms of one layout have in common, by harmonic and layer (a row of layers each harmonic). */
export interface Waves {
  readonly sheets: LayerSheets
  /** Mean of cos k z over a layer. */
  readonly amplitude: Float64Array
  /** The same times sinh(kt/2)/(kt/2). */
  readonly wide: Float64Array
  /** Field of a layer on itself. */
  readonly own: Float64Array
  /** exp(−k x). */
  readonly inner: Float64Array
  /** exp(−k w), by harmonic. */
  readonly across: Float64Array
}

let known: { readonly layout: StackLayout; readonly waves: Waves } | null = null
let room = { layers: 0, amplitude: none(), wide: none(), own: none(), inner: none() }
const across = new Float64Array(sheetHarmonics)

function none(): Float64Array {
  return new Float64Array(0)
}

/** Arrays with room for so many layers, used anew for each layout. */
function roomFor(layers: number): typeof room {
  if (layers > room.layers) {
    const size = layers * sheetHarmonics
    const fresh = () => new Float64Array(size)
    room = { layers, amplitude: fresh(), wide: fresh(), own: fresh(), inner: fresh() }
  }
  return room
}

/**
 * Worked out once for the layout asked for last, and good until another is. Functions of m k are carried from harmonic
 * to harmonic, not called anew.
 */
export function wavesOf(layout: StackLayout): Waves {
  if (known?.layout === layout) return known.waves
  const sheets = layerSheets(layout)
  const { count, x_m, thickness_m, span_m } = sheets
  const k = (2 * Math.PI) / layout.input.core.height_m
  const size = count * sheetHarmonics
  const { amplitude, wide, own, inner } = roomFor(count)
  powers(Math.exp(-k * fieldWidth_m(layout)), across, 0, 1)
  for (let i = 0; i < count; i++) {
    powers(Math.exp(-k * x_m[i]!), inner, i, count)
    // Layers of one winding are alike.
    const alike = i > 0 && thickness_m[i] === thickness_m[i - 1] && span_m[i] === span_m[i - 1]
    if (alike) {
      for (let at = i; at < size; at += count) {
        amplitude[at] = amplitude[at - 1]!
        wide[at] = wide[at - 1]!
        own[at] = own[at - 1]!
      }
      continue
    }
    const half = (k * span_m[i]!) / 2
    const thick = k * thickness_m[i]!
    const fall = Math.exp(-thick)
    const turn = 2 * Math.cos(half)
    let sine = Math.sin(half)
    let before = 0
    let fallen = fall
    for (let m = 1, at = i; m <= sheetHarmonics; m++, at += count) {
      const mean = sine / (m * half)
      const y = m * thick
      amplitude[at] = mean
      wide[at] = mean * (1 + (y * y) / 24)
      own[at] = thickFactor(y, fallen) * thickness_m[i]!
      const next = turn * sine - before
      before = sine
      sine = next
      fallen *= fall
    }
  }
  const waves = { sheets, amplitude, wide, own, inner, across }
  known = { layout, waves }
  return waves
}

/** Writes the first powers of a base, one each harmonic. */
function powers(base: number, into: Float64Array, from: number, step: number): void {
  let power = 1
  for (let m = 0, at = from; m < sheetHarmonics; m++, at += step) {
    power *= base
    into[at] = power
  }
}
