import { hotSaturationFlux, saturationFlux } from '../../magnetics/material/index.ts'
import type { Spread } from '../../quantity/spread.ts'
import type { WindingName } from '../../supply/build.ts'
import type { Design } from '../../supply/design.ts'
import { pulsed_C } from '../../supply/resolve/pulsed-ferrite.ts'
import { leastInsulation_ohm } from '../../supply/transformer/insulation-band.ts'
import { plannedBands } from '../../supply/transformer/planned-bands.ts'
import { type WindingPins, windingPins } from '../../supply/transformer/winding-pins.ts'
import { type CheckSpec, number, type PlanFacts, state } from './spec.ts'
import { cold } from './ways.ts'

/** One standard deviation of a spread whose ends are met about once in twenty, as a part of the typical value. */
const sigma = (s: Spread): number => Math.max(0.01, (s.maximum - s.minimum) / 4 / s.typical)
const planned = ({ evaluation }: PlanFacts): number =>
  sigma(evaluation.design.transformer.plannedInductance_H)
const leakage = ({ evaluation }: PlanFacts): number => sigma(evaluation.design.transformer.plannedLeakage_H)
const resistance = 0.05

/** Pins of a winding on this supply: its dotted end and the other, whichever way it is wound. */
const pins = ({ transformer }: Design, winding: WindingName): WindingPins =>
  windingPins(transformer.coil.layout.sections, winding) ?? { dotted: 0, other: 0 }
/** Bend of the cold core that is the greatest current limit of the chip when it is hot. */
const leastBend_A = ({ parts, ferrite }: Design): number =>
  (parts.switcher.currentLimit_A.maximum * saturationFlux(ferrite.curve, pulsed_C)) /
  hotSaturationFlux(ferrite.curve, pulsed_C)
/** Probe across one whole winding, the dotted end first. */
const across = (winding: WindingName) => ({
  at: (d: Design) => `${winding} pin ${pins(d, winding).dotted}, its dot`,
  reference: (d: Design) => `pin ${pins(d, winding).other}`,
})

/** What is joined to read primary and secondary in series. */
const joined = (d: Design, end: keyof WindingPins): string =>
  `pins ${pins(d, 'primary').other} and ${pins(d, 'secondary')[end]} joined`

/** The finished transformer before it is soldered in. */
export const transformerChecks: readonly CheckSpec[] = [
  number('transformer.inductance', 'Primary inductance, all else open', 'H', planned, 1e-6, {
    spot: 'transformer',
    side: 'transformer',
    ...across('primary'),
    ways: cold.inductance,
    risk: 'Gap and turns stay unproven: too little gap kills the switch at first load.',
    low: 'Gap too large, spacers of full value under all legs, turns missing or a shorted turn: output gives way loaded.',
    high: 'Gap too small or missing: saturates, do not power.',
    asBuilt: 'primaryInductance_H',
    planned: (d) => plannedBands(d).inductance,
    why: 'gap ±9 %, permeability of the core',
    stop: ({ evaluation }) => ({
      below: null,
      above: 1.25 * evaluation.design.transformer.plannedInductance_H.typical,
      text: 'A quarter above plan: do not power, the core may saturate at the current limit.',
    }),
  }),
  number('transformer.leakage', 'Leakage, secondary shorted at its pins, bias open', 'H', leakage, 1e-7, {
    spot: 'transformer',
    side: 'transformer',
    ...across('primary'),
    ways: cold.inductance,
    risk: 'Clamp heat and drain peak stay unproven: read the clamp voltage closely at every step.',
    low: 'Better than planned; check that the short was at the pins.',
    high: 'Loose or one-sided winding, or the shorting wire too long: hot clamp, early fold-back.',
    asBuilt: 'leakage_H',
    planned: (d) => plannedBands(d).leakage,
    why: 'hand winding, 0.7 to 1.5 of the estimate',
  }),
  number('transformer.aiding', 'Primary + secondary, aiding', 'H', planned, 1e-6, {
    spot: 'secondary',
    side: 'transformer',
    at: across('primary').at,
    reference: (d) => `secondary pin ${pins(d, 'secondary').other}; ${joined(d, 'dotted')}`,
    ways: cold.inductance,
    risk: 'A reversed winding is met at first power, where it may cost the switch.',
    low: 'If it is the value of the opposing pair, a winding is reversed.',
    high: 'Turns wrong.',
    asBuilt: 'aidingInductance_H',
    planned: (d) => plannedBands(d).aiding,
    why: 'as the inductance',
  }),
  number('transformer.opposing', 'Primary + secondary, opposing', 'H', planned, 1e-6, {
    spot: 'secondary',
    side: 'transformer',
    at: across('primary').at,
    reference: (d) => `secondary pin ${pins(d, 'secondary').dotted}; ${joined(d, 'other')}`,
    ways: cold.inductance,
    risk: 'Without both of the pair a reversed winding may pass unseen.',
    low: 'Turns wrong.',
    high: 'If it is the value of the aiding pair, a winding is reversed: do not power.',
    asBuilt: 'opposingInductance_H',
    planned: (d) => plannedBands(d).opposing,
    why: 'as the inductance',
  }),
  number('transformer.ratio-secondary', 'Primary volts over secondary volts', '1', 0.01, 0.05, {
    spot: 'secondary',
    side: 'transformer',
    at: 'primary pins',
    reference: 'secondary pins',
    ways: cold.ratio,
    risk: 'A turn out in the secondary shifts drain and rectifier voltage.',
    low: 'Secondary turns too many or primary turns too few.',
    high: 'Secondary turns too few or primary turns too many.',
    asBuilt: 'secondaryVoltsRatio',
    why: 'whole turns; the meter',
  }),
  number('transformer.ratio-bias', 'Primary volts over bias volts', '1', 0.012, 0.05, {
    spot: 'bias',
    side: 'transformer',
    at: 'primary pins',
    reference: 'bias pins',
    ways: cold.ratio,
    risk: 'A wrong bias voltage starves or over-stresses the chip.',
    low: 'Bias turns too many or primary turns too few.',
    high: 'Bias turns too few or primary turns too many.',
    asBuilt: 'biasVoltsRatio',
    why: 'whole turns; the meter',
  }),
  state(
    'transformer.secondary-sense',
    'Sense of secondary against primary',
    { same: 'dotted ends swing together', opposite: 'dotted ends swing against each other', none: 'nothing' },
    {
      spot: 'secondary',
      side: 'transformer',
      ...across('secondary'),
      ways: cold.sense,
      risk: 'A reversed winding is met at first power, where it may cost the switch.',
      stop: () => ({ below: null, above: null, text: 'Against each other: do not power.' }),
    },
  ),
  state(
    'transformer.bias-sense',
    'Sense of bias against primary',
    { same: 'dotted ends swing together', opposite: 'dotted ends swing against each other', none: 'nothing' },
    {
      spot: 'bias',
      side: 'transformer',
      ...across('bias'),
      ways: cold.sense,
      risk: 'A reversed bias winding makes the supply click.',
    },
  ),
  number('transformer.primary-ohm', 'Primary resistance at 20 °C', 'ohm', resistance, 0.02, {
    spot: 'primary',
    side: 'transformer',
    ...across('primary'),
    ways: cold.windingOhms,
    risk: 'A broken strand or a wrong wire is met as heat.',
    low: 'Turns missing or thicker wire.',
    high: 'Broken strand, thinner wire or enamel left at a pin.',
    asBuilt: 'primaryResistance_ohm',
    planned: (d) => plannedBands(d).primaryResistance,
    why: 'wire and length ±10 %',
  }),
  number('transformer.secondary-ohm', 'Secondary resistance at 20 °C', 'ohm', 2 * resistance, 2e-4, {
    spot: 'secondary',
    side: 'transformer',
    ...across('secondary'),
    ways: cold.milliohms,
    risk: 'A broken strand or a shorted secondary is met as heat.',
    low: 'Shorted, turns missing, or thicker wire.',
    high: 'Broken strand or enamel left at a pin.',
    asBuilt: 'secondaryResistance_ohm',
    planned: (d) => plannedBands(d).secondaryResistance,
    why: 'wire and length ±10 %, read at the pins by four wires',
  }),
  number('transformer.bias-ohm', 'Bias resistance at 20 °C', 'ohm', 1.4 * resistance, 0.05, {
    spot: 'bias',
    side: 'transformer',
    ...across('bias'),
    ways: cold.windingOhms,
    risk: 'An open bias winding makes the supply click.',
    low: 'Turns missing.',
    high: 'Open: enamel left at a pin, or the wire broke.',
    asBuilt: 'biasResistance_ohm',
    planned: (d) => plannedBands(d).biasResistance,
    why: 'wire and length ±10 %',
  }),
  number('transformer.insulation', 'Primary and core to secondary', 'ohm', 0.8, 1e6, {
    spot: 'transformer',
    side: 'across the barrier',
    at: 'primary, bias and core joined',
    reference: 'secondary pins joined',
    ways: cold.insulation,
    risk: 'Weak insulation is not found by any test of function.',
    low: 'Margin lost, an unsleeved crossing, a nick in the wire: take it apart.',
    high: 'No matter.',
    oneSided: 'at least',
    asBuilt: 'insulation_ohm',
    why: 'above 100 MΩ at 500 V; common practice, no source. It certifies nothing.',
    stop: () => ({
      below: leastInsulation_ohm,
      above: null,
      text: 'Below 100 MΩ: do not fit this transformer.',
    }),
  }),
  number('transformer.quality', 'Quality factor at the switching frequency', '1', 0.3, 0.5, {
    spot: 'transformer',
    side: 'transformer',
    ...across('primary'),
    ways: cold.quality,
    risk: 'A shorted turn or a lossy core is met as heat.',
    low: 'Shorted turn, closed shield or foil, lossy core.',
    high: 'No matter.',
    why: 'eddy loss of the coil, the meter at its highest frequency',
    onlyInTrouble: true,
  }),
  number('transformer.knee', 'Current at which the inductance bends', 'A', 0.12, 0.02, {
    spot: 'core',
    side: 'transformer',
    ...across('primary'),
    ways: cold.knee,
    risk: 'Saturation stays unproven; the inductance reading stands in for it.',
    low: 'Gap too small or core material saturates early.',
    high: 'Gap larger than planned.',
    asBuilt: 'saturationCurrent_A',
    why: 'saturation of the ferrite, inductance',
    stop: ({ evaluation }) => ({
      below: leastBend_A(evaluation.design),
      above: null,
      text: 'Hot, that is below the greatest current limit of the chip: do not power.',
    }),
    onlyInTrouble: true,
  }),
  number('transformer.squeeze', 'Change when halves are pressed', 'fraction', 0.5, 8e-3, {
    spot: 'core',
    side: 'transformer',
    ...across('primary'),
    ways: cold.lcrHand,
    risk: 'A loose core whines and drifts.',
    low: 'No matter.',
    high: 'Halves not seated: dirt, a chip, a loose clip. Clean, seat, glue.',
    oneSided: 'at most',
    why: 'a seated core moves less than 1 %',
  }),
  number('transformer.resonance', 'Own resonance of the primary', 'Hz', 0.2, 1e3, {
    spot: 'primary',
    side: 'transformer',
    ...across('primary'),
    ways: cold.resonance,
    risk: 'High winding capacitance is met as loss at no load.',
    low: 'High winding capacitance: thick layers without tape, no fold-back.',
    high: 'No matter.',
    why: 'capacitance of the coil is an estimate',
    onlyInTrouble: true,
  }),
  state(
    'transformer.each-shorted',
    'Each other winding shorted alone: which leaves the largest leakage',
    { alike: 'as near as their places let expect', 'one far off': 'one is far worse than the rest' },
    {
      spot: 'transformer',
      side: 'transformer',
      ...across('primary'),
      ways: cold.inductance,
      risk: 'Which winding is badly placed stays open.',
      onlyInTrouble: true,
    },
  ),
]
