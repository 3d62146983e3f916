import { requiredDistances, strengthTest } from '../../insulation/index.ts'
import { surgedBulk_V, surgeThroughVaristor } from '../../mains/surge.ts'
import type { Design } from '../../supply/design.ts'
import type { Readings } from '../../supply/reading.ts'
import { insulationBasis } from '../../supply/resolve/margin.ts'
import { anywhere, once, overConditions, type Rule, steady, whileOutputUp } from '../rule.ts'

/** Line-to-line surge that ordinary equipment meets (IEC 61000-4-5, from memory), V behind 2 ohm. */
const surge_V = 1000
/** Least breaking capacity of a miniature fuse: 35 A or ten times its rating (IEC 60127 low class, from memory). */
const breaking = { least_A: 35, times: 10 }

const onMains = (d: Design): boolean => d.need.source.kind === 'mains'
const highest_V = (d: Design): number =>
  d.need.source.kind === 'mains' ? d.need.source.maximum_Vrms : d.need.source.maximum_V

/** Strength test that the barrier of a grade is asked to stand, V peak. */
const test_V = (d: Design, grade: 'basic' | 'reinforced'): number =>
  strengthTest(requiredDistances(insulationBasis(d.need)).impulse_V, grade)

/**
 * Voltage that a surge leaves across the bridge: what the varistor lets through, or what the charge of the surge
 * lifts the bulk capacitor to, whichever is less.
 */
function surged_V(d: Design): number {
  const crest_V = highest_V(d) * Math.SQRT2
  const lifted_V = surgedBulk_V(crest_V, d.bulkCapacitance_F.typical)
  return d.parts.varistor
    ? Math.min(lifted_V, surgeThroughVaristor(d.parts.varistor, surge_V, highest_V(d)).letThrough_V)
    : lifted_V
}

/** Pins that the secondary takes: one more than its parts. */
const secondaryPins = (d: Design): number =>
  d.transformer.coil.layout.sections.filter((section) => section.winding === 'secondary').length + 1

/** Mean current of the bias diode: its loss over its drop. */
const biasDiode_A = (r: Readings, d: Design): number => r.biasDiode_W / d.parts.biasDiode.drop_V

/** Junction of a small diode that stands in the air of the case by itself: air and its loss over its leads. */
const diodeJunction = (
  spot: 'clampDiode' | 'biasDiode',
  {
    loss_W,
    ...rule
  }: { readonly loss_W: (r: Readings) => number } & Pick<
    Parameters<typeof overConditions>[0],
    'id' | 'title' | 'band' | 'why' | 'raise'
  >,
): Rule =>
  overConditions({
    ...rule,
    spot,
    unit: '°C',
    aboveAmbient: true,
    where: steady,
    reading: (r, d) => r.insideAir_C + loss_W(r) * d.parts[spot].junctionToAmbient_K_per_W,
    rating: (d) => d.parts[spot].maximumJunction_C,
  })

/** Power of the trimmer, its track fully in circuit under the reference voltage: I²R of the divider. */
function trimmer_W(d: Design): number {
  const track_ohm = d.parts.trimmer?.resistance_ohm ?? 0
  const current_A = d.parts.reference.voltage_V.maximum / (d.feedback.dividerBottom_ohm + track_ohm)
  return current_A * current_A * track_ohm
}

/** Ratings of the small parts, one row each. */
export const ratingRules: readonly Rule[] = [
  once({
    id: 'x-capacitor.class',
    title: 'X capacitor class',
    spot: 'xCapacitor',
    sense: 'at-least',
    unit: '',
    band: 0,
    discrete: true,
    applies: (d) => d.parts.xCapacitor !== null && onMains(d),
    reading: (_f, d) => (d.parts.xCapacitor?.safetyClass ? 1 : 0),
    rating: () => 1,
    why: 'It lies straight across the mains and must not catch fire on a surge: never a part without an X or Y class.',
    raise: 'A capacitor of class X2.',
  }),
  once({
    id: 'y-capacitor.voltage',
    title: 'Y capacitor voltage',
    spot: 'yCapacitor',
    unit: 'V',
    band: 0,
    discrete: true,
    applies: (d) => d.parts.yCapacitor !== null && onMains(d),
    reading: (_f, d) => highest_V(d),
    rating: (d) => d.parts.yCapacitor?.voltage_V ?? 0,
    why: 'With the plug one way round it stands the whole mains voltage.',
    raise: 'A Y capacitor of higher voltage.',
  }),
  once({
    id: 'optocoupler.isolation',
    title: 'Optocoupler isolation voltage',
    spot: 'optocoupler',
    basis: 'rule',
    sense: 'at-least',
    unit: 'V',
    band: 0,
    discrete: true,
    reading: (_f, d) => d.parts.optocoupler.isolation_Vrms,
    rating: (d) => test_V(d, d.need.insulation) / Math.SQRT2,
    why: 'It bridges the barrier and must stand the same strength test. A guide; local rules decide.',
    raise: 'An optocoupler of higher isolation voltage.',
  }),
  once({
    id: 'insulation.tape-strength',
    title: 'Strength of the tape between primary and secondary',
    spot: 'tape',
    basis: 'rule',
    sense: 'at-least',
    unit: 'V',
    band: 0,
    discrete: true,
    applies: (d) => d.supply.build.transformer.insulation === 'margins',
    // One layer may be damaged where there is more than one.
    reading: (_f, d) => d.parts.tape.strength_V * Math.max(1, d.supply.build.transformer.tapeBarrier - 1),
    rating: (d) => test_V(d, d.need.insulation),
    why: 'The layers that are left when one is damaged must stand the strength test. A guide; local rules decide.',
    raise: 'More layers of barrier tape, or tape of higher strength.',
  }),
  once({
    id: 'switcher.pad-strength',
    title: 'Strength of the pad under the switcher',
    spot: 'switcherPad',
    basis: 'rule',
    sense: 'at-least',
    unit: 'V',
    band: 0,
    discrete: true,
    applies: (d) => d.parts.switcherPad !== null,
    reading: (_f, d) => d.parts.switcherPad?.strength_V ?? 0,
    rating: (d) => test_V(d, 'basic'),
    why: 'A heatsink that anything touches must not carry the primary. A guide; local rules decide.',
    raise: 'A pad of higher strength.',
  }),
  once({
    id: 'transformer.pins-secondary',
    title: 'Pins of the secondary row',
    spot: 'former',
    basis: 'rule',
    discrete: true,
    unit: '',
    band: 0,
    reading: (_f, d) => secondaryPins(d),
    rating: (d) => d.parts.former.rowTwo,
    why: 'Start, finish and every joint of the secondary need pins of their own.',
    raise: 'A former with more pins in its second row.',
  }),
  once({
    id: 'fuse.breaking',
    title: 'Breaking capacity of the fuse',
    spot: 'fuse',
    basis: 'rule',
    sense: 'at-least',
    unit: 'A',
    band: 0,
    discrete: true,
    applies: (d) => d.parts.fuse !== null,
    reading: (_f, d) => d.parts.fuse?.breaking_A ?? 0,
    rating: (d) => Math.max(breaking.least_A, breaking.times * (d.parts.fuse?.rated_A ?? 0)),
    why: 'A dead short draws more than a weak fuse can break: it bursts, and the arc stands.',
    raise: 'A fuse of higher breaking capacity.',
  }),
  once({
    id: 'bridge.melting',
    title: 'Melting integral of the bridge behind the fuse',
    spot: 'bridge',
    basis: 'rule',
    unit: 'A²s',
    band: 0.3,
    applies: (d) => d.parts.bridge !== null && d.parts.fuse !== null,
    reading: (_f, d) => d.parts.fuse?.meltingIntegral_A2s ?? 0,
    rating: (d) => d.parts.bridge?.meltingIntegral_A2s ?? 0,
    why: 'In a dead short the fuse should open before the bridge melts.',
    raise: 'A larger bridge, or a smaller fuse.',
  }),
  once({
    id: 'bridge.mains-surge',
    title: 'Bridge voltage in a mains surge',
    spot: 'bridge',
    basis: 'rule',
    unit: 'V',
    band: 0.15,
    applies: (d) => d.parts.bridge !== null && onMains(d),
    reading: (_f, d) => surged_V(d),
    rating: (d) => d.parts.bridge?.reverse_V ?? 0,
    why: 'A surge of 1 kV between the lines gets past the varistor and into the bulk capacitor.',
    raise: 'A varistor of lower voltage, a bridge of higher voltage, or a larger bulk capacitor.',
  }),
  overConditions({
    id: 'rectifier.surge',
    title: 'Rectifier peak current',
    spot: 'rectifier',
    unit: 'A',
    band: 0.15,
    where: anywhere,
    reading: (r) => r.secondaryPeak_A,
    rating: (d) => d.parts.rectifier.surge_A,
    why: 'Into a short and an empty output capacitor it carries the highest peak of all.',
    raise: 'A rectifier of higher surge rating, or a chip of lower limit.',
  }),
  overConditions({
    id: 'bias-diode.current',
    title: 'Bias diode mean current',
    spot: 'biasDiode',
    unit: 'A',
    band: 0.1,
    where: whileOutputUp,
    reading: biasDiode_A,
    rating: (d) => d.parts.biasDiode.average_A,
    why: 'It carries the supply of the chip.',
    raise: 'A larger diode.',
  }),
  diodeJunction('clampDiode', {
    id: 'clamp-diode.junction',
    title: 'Clamp diode junction temperature',
    band: 0.3,
    loss_W: (r) => r.clampDiode_W,
    why: 'It fails short, and the clamp holds no more.',
    raise: 'A larger diode, or less leakage.',
  }),
  diodeJunction('biasDiode', {
    id: 'bias-diode.junction',
    title: 'Bias diode junction temperature',
    band: 0.2,
    loss_W: (r) => r.biasDiode_W,
    why: 'Without it the chip has no supply.',
    raise: 'A larger diode.',
  }),
  once({
    id: 'trimmer.power',
    title: 'Trimmer power',
    spot: 'trimmer',
    unit: 'W',
    band: 0.1,
    applies: (d) => d.parts.trimmer !== null,
    reading: (_f, d) => trimmer_W(d),
    rating: (d) => d.parts.trimmer?.power_W ?? 0,
    why: 'A hot track drifts, and the output with it.',
    raise: 'Larger divider resistors, or a larger trimmer.',
  }),
]
