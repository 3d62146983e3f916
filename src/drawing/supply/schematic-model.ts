import { type Limit, rankOf } from '../../engine/limits/limit.ts'
import { readingOf } from '../../engine/papers/worst.ts'
import { shortValue } from '../../engine/parts/short-value.ts'
import { formatQuantity, formatRange } from '../../engine/quantity/index.ts'
import { at, type Evaluation, greatest, least } from '../../engine/supply/evaluation.ts'
import type { ReadingKey } from '../../engine/supply/reading.ts'
import { reference } from '../../engine/supply/refs.ts'
import type { SchematicItem, SchematicModel, Spot, Standing } from '../schematic/model.ts'

/** Margin below which a part is drawn as close to its limit. */
export const closeMargin = 0.05

/** How each spot stands: over a limit, close to one, or clear of all. */
function standings(limits: readonly Limit[]): Partial<Record<string, Standing>> {
  const worst: Partial<Record<string, Standing>> = {}
  for (const limit of limits) {
    const standing = limit.holds ? (rankOf(limit) < closeMargin ? 'near' : 'holds') : 'broken'
    const before = worst[limit.spot]
    if (before === 'broken' || (before === 'near' && standing === 'holds')) continue
    worst[limit.spot] = standing
  }
  return worst
}

/** Spots of the design that stand for the transformer as one thing. */
const transformerSpots = [
  'transformer',
  'core',
  'material',
  'former',
  'tape',
  'primary',
  'secondary',
  'bias',
  'primaryWire',
  'secondaryWire',
  'biasWire',
]

const ohms = (value: number) => formatQuantity(value, 'ohm')
const farads = (value: number) => formatQuantity(value, 'F')

/** Values of the places that hold a computed value; a value of zero means that the place stays empty. */
function computedValues(evaluation: Evaluation): Partial<Record<Spot, string>> {
  const { design } = evaluation
  const { clamp, feedback, parts } = design
  const { snubber } = design.supply.build
  const network = clamp.style === 'resistor-capacitor'
  return {
    ...(network && { clampResistor: ohms(clamp.resistor_ohm), clampCapacitor: farads(clamp.capacitor_F) }),
    ...(parts.xCapacitor && { bleed: ohms(design.bleed_ohm) }),
    ...(snubber && {
      snubberResistor: ohms(snubber.resistor_ohm),
      snubberCapacitor: farads(snubber.capacitor_F),
    }),
    ...(parts.indicator && { indicatorResistor: ohms(design.indicatorResistor_ohm) }),
    ledResistor: ohms(feedback.ledResistor_ohm),
    biasResistor: ohms(feedback.biasResistor_ohm),
    dividerTop: ohms(feedback.dividerTop_ohm),
    dividerBottom: ohms(feedback.dividerBottom_ohm),
    compensationResistor: ohms(feedback.compensationResistor_ohm),
    compensationCapacitor: farads(feedback.compensationCapacitor_F),
    ...(feedback.highFrequencyCapacitor_F > 0 && {
      highFrequencyCapacitor: farads(feedback.highFrequencyCapacitor_F),
    }),
    ...(feedback.softFinishCapacitor_F > 0 && {
      softFinishCapacitor: farads(feedback.softFinishCapacitor_F),
    }),
    controlCapacitor: 'as chip asks',
  }
}

/** Places of the build that are drawn as they are. */
const drawnPlaces = [
  'fuse',
  'ntc',
  'varistor',
  'xCapacitor',
  'commonModeChoke',
  'bridge',
  'bulkCapacitor',
  'clampDiode',
  'switcher',
  'biasDiode',
  'biasCapacitor',
  'optocoupler',
  'rectifier',
  'outputCapacitor',
  'secondCapacitor',
  'indicator',
  'reference',
  'trimmer',
  'yCapacitor',
] as const

/** The reading written beside a part, at full load where it is greatest. */
function liveReadings(evaluation: Evaluation): Partial<Record<Spot, string>> {
  const watts = (key: ReadingKey) => formatQuantity(worstSteady(evaluation, key), 'W', 2)
  const { parts, clamp } = evaluation.design
  return {
    switcher: `${watts('switch_W')}, ${formatQuantity(worstSteady(evaluation, 'switchJunction_C'), 'C', 2)}`,
    rectifier: `${watts('rectifier_W')}, ${formatQuantity(worstSteady(evaluation, 'rectifierReversePeak_V'), 'V')} peak`,
    [clamp.style === 'avalanche' ? 'clampAvalanche' : 'clampResistor']: watts('clamp_W'),
    transformer: `${watts('transformer_W')}, ${formatQuantity(most(evaluation, 'fluxPeak_T'), 'T', 2)} peak`,
    outputCapacitor: `${formatQuantity(worstSteady(evaluation, 'outputCapacitorEach_Arms'), 'A', 2)} rms`,
    ...(parts.bridge && { bridge: watts('bridge_W') }),
    bulkCapacitor: `${formatQuantity(worstSteady(evaluation, 'bulkRippleEquivalent_Arms'), 'A', 2)} rms`,
    ...(parts.ntc && { ntc: watts('ntc_W') }),
  }
}

/** Greatest over the conditions at which the supply regulates; NaN, shown as a dash, where it never does. */
const worstSteady = (evaluation: Evaluation, key: ReadingKey): number => {
  let worst = Number.NaN
  for (const c of evaluation.conditions)
    if (c.runs && c.condition.kind === 'steady' && !(c.readings[key] <= worst)) worst = c.readings[key]
  return worst
}

const most = (evaluation: Evaluation, key: ReadingKey): number =>
  greatest(evaluation, key)?.readings[key] ?? Number.NaN

/** Schematic of a supply with values, live readings and standing of every part. */
export function schematicModel(evaluation: Evaluation, limits: readonly Limit[]): SchematicModel {
  const { design } = evaluation
  const { parts, need, transformer } = design
  const nominal = at(evaluation, 'nominal-100')?.readings
  const stand = standings(limits)
  const live = liveReadings(evaluation)
  const values: Partial<Record<Spot, string>> = computedValues(evaluation)
  for (const place of drawnPlaces) {
    const part = parts[place]
    if (part) values[place] = shortValue(part)
  }
  if (parts.indicator) values.indicator = `LED ${formatQuantity(parts.indicator.drop_V, 'V')}`
  const counts = design.supply.build
  const times = (spot: Spot, count: number) => {
    if (count > 1 && values[spot]) values[spot] = `${count} × ${values[spot]}`
  }
  times('bulkCapacitor', counts.bulkCount)
  times('outputCapacitor', counts.outputCount)
  times('secondCapacitor', counts.secondCount)
  if (design.clamp.style === 'avalanche' && parts.clampAvalanche)
    values.clampAvalanche = shortValue(parts.clampAvalanche)
  if (parts.choke) values.choke = formatQuantity(nominal?.chokeInductance_H ?? Number.NaN, 'H', 2)
  values.transformer = `${parts.core.size}, ${formatQuantity(transformer.primaryInductance_H.typical, 'H')}`
  const items: Partial<Record<Spot, SchematicItem>> = {}
  for (const [spot, value] of Object.entries(values) as [Spot, string][]) {
    const reading = live[spot]
    const standing = spot === 'transformer' ? worstOf(stand, transformerSpots) : stand[spot]
    items[spot] = {
      reference: reference[spot],
      value,
      ...(reading !== undefined && { reading }),
      ...(standing !== undefined && { standing }),
    }
  }
  const low = least(evaluation, 'bulkMinimum_V')?.readings.bulkMinimum_V ?? Number.NaN
  const high = most(evaluation, 'bulkPeak_V')
  const source = need.source
  return {
    title: `Schematic of ${design.supply.name}`,
    source: source.kind,
    items,
    nodes: {
      input:
        source.kind === 'mains'
          ? `${formatRange(source.minimum_Vrms, source.maximum_Vrms, 'V')} ~ ${formatQuantity(source.frequency_Hz, 'Hz')}`
          : `${formatRange(source.minimum_V, source.maximum_V, 'V')} DC`,
      bulk: `bulk ${formatRange(low, high, 'V')}`,
      drain: `drain ${formatQuantity(readingOf(limits, 'switcher.drain-voltage') ?? most(evaluation, 'drainPeak_V'), 'V')} peak`,
      bias: formatQuantity(nominal?.bias_V ?? Number.NaN, 'V'),
      output: `${formatQuantity(need.output_V, 'V')}  ${formatQuantity(need.output_A, 'A')}`,
    },
    turns: {
      primary: `${transformer.primaryTurns} T`,
      secondary: `${transformer.secondaryTurns} T`,
      bias: `${transformer.biasTurns} T`,
    },
    control: parts.switcher.control.style,
    senseAfterChoke: design.feedback.senseAfterChoke,
    ledFeedAfterChoke: design.feedback.ledFeedAfterChoke,
  }
}

const worstOf = (stand: Partial<Record<string, Standing>>, spots: readonly string[]): Standing =>
  spots.some((spot) => stand[spot] === 'broken')
    ? 'broken'
    : spots.some((spot) => stand[spot] === 'near')
      ? 'near'
      : 'holds'
