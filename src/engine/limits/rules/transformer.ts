import { windingNames } from '../../supply/build.ts'
import type { Design } from '../../supply/design.ts'
import { coilMost_C, insideCoil_C } from '../../supply/heat-stops.ts'
import { pinSharing } from '../../supply/pin-sharing.ts'
import { copperAPin_m2, wiresAPin } from '../../supply/pins-an-end.ts'
import { crowdedPins } from '../../supply/transformer/pins.ts'
import { anywhere, fullLoad, once, overConditions, type Rule, steady } from '../rule.ts'

/** Current density above which a short hand-wound coil runs hot; common practice, no source. */
const greatestDensity_A_per_m2 = 6.5e6
/** Smallest gap that a hand can keep; trade texts on gapped ferrite. */
const leastGap_m = 50e-6

/** Pins that the primary side takes: two for each of its windings, and one for each joint that lies on a pin. */
const primaryPins = (d: Design): number => {
  const { sections } = d.transformer.coil.layout
  const pins = (winding: string) => {
    const parts = sections.filter((section) => section.winding === winding)
    return 2 + parts.slice(1).filter((part) => part.startPin !== null).length
  }
  return pins('primary') + pins('bias')
}

/** Fullest pin: wires over four, or copper over 1.5 mm², whichever is more. */
const pinLoad = (d: Design): number =>
  Math.max(
    ...pinSharing(d).map((share) =>
      Math.max(share.wiresOnPin / wiresAPin, (share.wiresOnPin * share.copper_m2) / copperAPin_m2),
    ),
  )

/** Share of a winding's turns that is left where its parts turn against each other; the least of all windings. */
function turnsThatAdd(d: Design): number {
  const { sections } = d.transformer.coil.layout
  const shares = windingNames.map((name) => {
    const parts = sections.filter((section) => section.winding === name)
    const signed = parts.map((p) => (p.direction === parts[0]!.direction ? p.turns : -p.turns))
    return Math.abs(sum(signed)) / sum(parts.map((p) => p.turns))
  })
  return Math.min(...shares)
}
const sum = (list: readonly number[]): number => list.reduce((a, b) => a + b, 0)

/** Most nets that meet on one pin of the former. */
const netsOnPin = (d: Design): number =>
  Math.max(1, ...crowdedPins(d.transformer.coil.layout.sections).map(({ nets }) => nets.length))

/** Window fill that a hand reaches; common practice, no source. */
export const handFill = 0.85
/** Thickest wire over the skin depth; common practice, no source. */
export const thickestOverSkin = 2.5

export const transformerRules: readonly Rule[] = [
  overConditions({
    id: 'core.saturation',
    title: 'Flux at the greatest current limit',
    spot: 'core',
    unit: 'T',
    band: 0.05,
    where: anywhere,
    reading: (r) => r.fluxLimit_T,
    rating: (_d, r) => r.saturation_T,
    why: 'Start-up and overload reach the limit; a saturated core lets the current run away and kills the switch.',
    raise: 'A larger gap, more primary turns with it, a larger core, or a chip of lower limit.',
  }),
  overConditions({
    id: 'transformer.temperature',
    title: 'Transformer temperature',
    spot: 'transformer',
    unit: '°C',
    band: 0.2,
    aboveAmbient: true,
    where: steady,
    reading: insideCoil_C,
    rating: coilMost_C,
    why: 'Insulation ages fast above its class, and ferrite loses saturation flux.',
    raise: 'A larger core, wires with less ac loss, a larger gap with less swing, or more air.',
  }),
  once({
    id: 'transformer.fit',
    title: 'Window fill',
    spot: 'former',
    unit: '',
    band: 0.1,
    reading: (f) => f.windowFill,
    rating: () => 1,
    why: 'Over 1 the core halves do not close over the coil.',
    raise:
      'Thinner wire, fewer wires in hand, fewer turns, triple-insulated wire in place of margins, or a larger core.',
  }),
  once({
    id: 'transformer.pins',
    title: 'Pin count of the primary row',
    spot: 'former',
    basis: 'rule',
    discrete: true,
    unit: '',
    band: 0,
    reading: (_, d) => primaryPins(d),
    rating: (d) => d.parts.former.rowOne,
    why: 'Primary, its joint and the bias winding each need pins of their own; two nets on one pin are a short.',
    raise:
      'A primary that is not split, a joint that is insulated and left off the pins, or a former with more pins.',
  }),
  once({
    id: 'transformer.sense',
    title: 'Turns of one winding that add up',
    spot: 'transformer',
    discrete: true,
    sense: 'at-least',
    unit: '',
    band: 0,
    reading: (_, d) => turnsThatAdd(d),
    rating: () => 1,
    why: 'A part that turns against the rest of its winding takes its volts away: low inductance, wrong ratio, a dead switch.',
    raise: 'The same direction for every part of a winding.',
  }),
  once({
    id: 'transformer.pin-nets',
    title: 'Net count of one pin',
    spot: 'former',
    discrete: true,
    unit: '',
    band: 0,
    reading: (_, d) => netsOnPin(d),
    rating: () => 1,
    why: 'Two nets on one pin are a short by plan.',
    raise: 'A pin of its own for each end and each joint.',
  }),
  once({
    id: 'transformer.pin-wires',
    title: 'Wire count of one pin',
    spot: 'former',
    discrete: true,
    basis: 'rule',
    unit: '',
    band: 0,
    reading: (_, d) => pinLoad(d),
    rating: () => 1,
    why: 'More than four wires, or 1.5 mm² of copper, cannot be wrapped and soldered on one pin.',
    raise: 'Flying leads or paralleled pins, fewer and thicker wires, or a former with more pins.',
  }),
  once({
    id: 'transformer.hand-fit',
    title: 'Window fill by hand',
    spot: 'former',
    basis: 'rule',
    unit: '',
    band: 0.1,
    reading: (f) => f.windowFill,
    rating: () => handFill,
    why: 'A hand winds less tightly than a machine; above this the last layers bulge.',
    raise: 'Thinner wire, fewer wires in hand, fewer tape layers where they are spare, or a larger core.',
  }),
  once({
    id: 'transformer.leakage',
    title: 'Leakage inductance',
    spot: 'transformer',
    basis: 'rule',
    unit: '',
    band: 0.3,
    reading: (f) => f.leakageRatio,
    rating: () => 0.05,
    why: 'Above it the clamp burns a large part of the output, and the supply quits early and hot.',
    raise:
      'Split the primary round the secondary, spread the secondary over the whole width, or use less tape between.',
  }),
  once({
    id: 'transformer.gap',
    title: 'Gap that a hand can keep',
    spot: 'transformer',
    basis: 'rule',
    sense: 'at-least',
    unit: 'm',
    band: 0.05,
    reading: (_f, d) => d.transformer.gap_m,
    rating: () => leastGap_m,
    why: 'Dust and glue decide so small a gap; the inductance comes out anyhow.',
    raise: 'Fewer turns with a larger gap, or a gap in the post in place of a spacer.',
  }),
  overConditions({
    id: 'primary.density',
    title: 'Primary current density',
    spot: 'primary',
    basis: 'rule',
    unit: 'A/m²',
    where: fullLoad,
    reading: (r) => r.primaryDensity_A_per_m2,
    rating: () => greatestDensity_A_per_m2,
    why: 'Copper inside the coil cannot shed the heat.',
    raise: 'Thicker wire or more wires in hand.',
  }),
  overConditions({
    id: 'secondary.density',
    title: 'Secondary current density',
    spot: 'secondary',
    basis: 'rule',
    unit: 'A/m²',
    where: fullLoad,
    reading: (r) => r.secondaryDensity_A_per_m2,
    rating: () => greatestDensity_A_per_m2,
    why: 'The rms current, not the output current, heats the wire.',
    raise: 'More wires in hand.',
  }),
  once({
    id: 'primary.wire-skin',
    title: 'Primary wire against skin depth',
    spot: 'primaryWire',
    discrete: true,
    basis: 'rule',
    unit: '',
    band: 0.02,
    reading: (f) => f.primaryWireSkin,
    rating: () => thickestOverSkin,
    why: 'The middle of thick wire carries no switching current, and the field of its neighbours heats it.',
    raise: 'Several thinner wires in hand, or stranded wire.',
  }),
  once({
    id: 'secondary.wire-skin',
    title: 'Secondary wire against skin depth',
    spot: 'secondaryWire',
    discrete: true,
    basis: 'rule',
    unit: '',
    band: 0.02,
    reading: (f) => f.secondaryWireSkin,
    rating: () => thickestOverSkin,
    why: 'The middle of thick wire carries no switching current, and the field of its neighbours heats it.',
    raise: 'Several thinner wires in hand, or stranded wire.',
  }),
]
