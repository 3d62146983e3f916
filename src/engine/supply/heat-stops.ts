import { surfaceFactor } from '../heat/enclosure.ts'
import { caseTemperature } from '../heat/junction.ts'
import type { Design } from './design.ts'
import type { Readings } from './reading.ts'

/** Room kept below a part's own greatest temperature where a thermometer decides; common practice, no source. */
const room_K = 10
/** How much hotter the inside of a coil is than its surface; common practice, no source. */
const insideCoil_K = 10

/** A metal oxide power resistor: body at rated power in air of 70 °C; typical of makers, from memory. */
const ratedBody_C = 200
const ratedAir_C = 70
/** Ratings that power resistors are sold in, W. */
const resistorRatings_W = [1, 2, 3, 5, 7, 10, 15, 20, 25, 50] as const

/** Temperature of the switcher's case: T = Tj - P Rjc, °C. */
export const switcherCase_C = (d: Design, r: Readings): number =>
  caseTemperature(r.switchJunction_C, r.switch_W, d.parts.switcher.junctionToCase_K_per_W)

/** Case temperature at which the switcher's junction is 10 K below shutdown and rating at this loss, °C. */
export function switcherCaseMost_C({ parts: { switcher } }: Design, r: Readings): number {
  const junction_C = Math.min(switcher.thermalShutdown_C.minimum, switcher.maximumJunction_C) - room_K
  return caseTemperature(junction_C, r.switch_W, switcher.junctionToCase_K_per_W)
}

/** Temperature of the rectifier's case: T = Tj - P Rjc, °C. */
export const rectifierCase_C = (d: Design, r: Readings): number =>
  caseTemperature(r.rectifierJunction_C, r.rectifier_W, d.parts.rectifier.junctionToCase_K_per_W)

/** Case temperature at which the rectifier's junction is 10 K below its rating at this loss, °C. */
export const rectifierCaseMost_C = ({ parts: { rectifier } }: Design, r: Readings): number =>
  caseTemperature(rectifier.maximumJunction_C - room_K, r.rectifier_W, rectifier.junctionToCase_K_per_W)

/** What the inside of the coil may reach: its coolest insulation, and 80 K below where the ferrite gives up, °C. */
export const coilMost_C = ({ parts }: Design): number =>
  Math.min(
    parts.former.temperature_C,
    parts.primaryWire.temperature_C,
    parts.secondaryWire.temperature_C,
    parts.biasWire.temperature_C,
    parts.tape.temperature_C,
    parts.material.curie_C - 80,
  )

/** Temperature inside the coil, 10 K above the surface that a thermometer reads, °C. */
export const insideCoil_C = (r: Readings): number => r.transformer_C + insideCoil_K
export const transformerSurfaceMost_C = (d: Design): number => coilMost_C(d) - insideCoil_K

/** Rating of the clamp resistor that the parts list asks for: the next above twice V²/R at the planned voltage, W. */
export function clampRating_W({ clamp }: Pick<Design, 'clamp'>): number {
  const twice_W = (2 * clamp.voltage_V ** 2) / clamp.resistor_ohm
  return resistorRatings_W.find((rating) => rating >= twice_W) ?? twice_W
}

/**
 * Body of the clamp resistor, °C: rise of 130 K at its rating, by the share of it in use, over the air inside the case;
 * more by the case's factor on every surface.
 */
export const clampBody_C = (d: Design, inside_C: number, clamp_W: number): number =>
  inside_C + ((ratedBody_C - ratedAir_C) * surfaceFactor[d.need.cooling] * clamp_W) / clampRating_W(d)

/** Hottest that a clamp's body may read: the resistor's at rated power, the avalanche device's junction, less 10 K, °C. */
export const clampMost_C = ({ clamp, parts }: Design): number =>
  (clamp.style === 'avalanche' ? (parts.clampAvalanche?.maximumJunction_C ?? ratedBody_C) : ratedBody_C) -
  room_K
