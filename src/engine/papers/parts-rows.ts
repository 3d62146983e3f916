import type { Limit } from '../limits/limit.ts'
import type { Drawer, Part } from '../parts/part.ts'
import { formatQuantity } from '../quantity/index.ts'
import type { Place } from '../supply/build.ts'
import type { Evaluation } from '../supply/evaluation.ts'
import { clampRating_W } from '../supply/heat-stops.ts'
import type { ReadingKey } from '../supply/reading.ts'
import { reference, type Spot } from '../supply/refs.ts'
import { preferredNearest } from '../supply/resolve/preferred.ts'
import { requirement } from './requirement.ts'
import { ownRequirement } from './substitute.ts'

/** One line of the parts list: what stands where, what it must stand, and whether the drawer has it. */
export interface PartsRow {
  readonly reference: string
  readonly spot: Spot
  readonly quantity: number
  readonly description: string
  /** What any substitute must stand, each with the worst reading of this supply. */
  readonly requirement: string
  readonly atHand: 'have' | 'short' | 'buy' | 'value'
  readonly holds: boolean
}

const counted = (evaluation: Evaluation, place: Place): number => {
  const { build } = evaluation.design.supply
  if (place === 'bulkCapacitor') return build.bulkCount
  if (place === 'outputCapacitor') return build.outputCount
  if (place === 'secondCapacitor') return build.secondCount
  return 1
}

/** Copper to buy for a winding, in metres, as words. */
function wireLength(evaluation: Evaluation, winding: string): string {
  const { sections, input } = evaluation.design.transformer.coil.layout
  const inHand = input.wires[winding]?.inHand ?? 1
  const total =
    sections.filter((s) => s.winding === winding).reduce((sum, s) => sum + s.cutLength_m, 0) * inHand
  return `${total.toFixed(1)} m`
}

const wireWinding: Partial<Record<Place, string>> = {
  primaryWire: 'primary',
  secondaryWire: 'secondary',
  biasWire: 'bias',
}

/** What a heatsink or pad belongs to. */
const cools: Partial<Record<Place, string>> = {
  switcherHeatsink: 'the switcher U1',
  switcherPad: 'the switcher U1',
  rectifierHeatsink: 'the rectifier D4',
  rectifierPad: 'the rectifier D4',
}

/** A part with what is made of it or what it is for: length of wire, turns of the choke, the part that it cools. */
function described(evaluation: Evaluation, place: Place, part: Part): string {
  const winding = wireWinding[place]
  if (winding) return `${part.name}, ${wireLength(evaluation, winding)} in all`
  const { chokeTurns, chokeInHand } = evaluation.design
  if (place === 'chokeWire') {
    // Tails of 3 cm at each end.
    const total_m = chokeInHand * ((evaluation.design.choke?.winding.length_m ?? 0) + 0.06)
    return `${part.name}: ${chokeTurns} turns, ${chokeInHand} in hand, ${total_m.toFixed(2)} m in all`
  }
  const cooled = cools[place]
  if (cooled) return `${part.name}, for ${cooled}`
  return part.name
}

function stock(drawer: Drawer | null, part: Part, count: number): PartsRow['atHand'] {
  const entry = drawer?.entries.find((candidate) => candidate.part.id === part.id)
  if (!entry) return 'buy'
  return entry.quantity === null || entry.quantity >= count ? 'have' : 'short'
}

/** Greatest reading anywhere. */
const worst = (evaluation: Evaluation, key: ReadingKey): number =>
  evaluation.conditions.reduce((most, c) => (c.runs ? Math.max(most, c.readings[key]) : most), 0)

const watts = (value: number) => formatQuantity(value, 'W', 2)
const volts = (value: number) => formatQuantity(value, 'V')

type ComputedRow = Pick<PartsRow, 'spot' | 'description' | 'requirement'> & { readonly quantity?: number }

/** Resistors and small capacitors whose values are computed, with what they must stand. */
function computedRows(evaluation: Evaluation): ComputedRow[] {
  const { design } = evaluation
  const { clamp, feedback, parts } = design
  const { snubber } = design.supply.build
  const rows: ComputedRow[] = []
  const ohm = (spot: Spot, value: number, words: string, must: string) => {
    if (value > 0)
      rows.push({
        spot,
        description: `${formatQuantity(value, 'ohm')} resistor, ${words}`,
        requirement: must,
      })
  }
  const farad = (spot: Spot, value: number, words: string, must: string) => {
    if (value > 0)
      rows.push({ spot, description: `${formatQuantity(value, 'F')} capacitor, ${words}`, requirement: must })
  }
  const clampVolts = worst(evaluation, 'clamp_V')
  if (clamp.style === 'resistor-capacitor') {
    ohm(
      'clampResistor',
      clamp.resistor_ohm,
      'power type, flame-proof',
      `rated ${watts(clampRating_W(design))} or more; ${volts(clampVolts)}, two in series where one stands less`,
    )
    farad('clampCapacitor', clamp.capacitor_F, 'film or ceramic', `over ${volts(clampVolts * 1.25)}`)
  }
  if (parts.xCapacitor && design.bleed_ohm > 0)
    rows.push({
      spot: 'bleed',
      quantity: 2,
      description: `${formatQuantity(preferredNearest(design.bleed_ohm / 2, 'E24'), 'ohm')} resistor, two in series for ${formatQuantity(design.bleed_ohm, 'ohm')}`,
      requirement: `${volts(worst(evaluation, 'bulkPeak_V'))} across both`,
    })
  if (snubber) {
    ohm('snubberResistor', snubber.resistor_ohm, 'not wire-wound', watts(2 * worst(evaluation, 'snubber_W')))
    farad(
      'snubberCapacitor',
      snubber.capacitor_F,
      'ceramic',
      `over ${volts(worst(evaluation, 'rectifierReversePeak_V'))}`,
    )
  }
  rows.push({
    spot: 'controlCapacitor',
    description: 'capacitor at the control pin',
    requirement: "value and kind by the chip's data sheet",
  })
  ohm('dividerTop', feedback.dividerTop_ohm, 'metal film 1 %', '0.25 W')
  ohm('dividerBottom', feedback.dividerBottom_ohm, 'metal film 1 %', '0.25 W')
  ohm(
    'ledResistor',
    feedback.ledResistor_ohm,
    '5 %',
    `at most ${formatQuantity(feedback.ledResistorMaximum_ohm, 'ohm')}`,
  )
  ohm(
    'biasResistor',
    feedback.biasResistor_ohm,
    '5 %',
    `at most ${formatQuantity(feedback.biasResistorMaximum_ohm, 'ohm')}`,
  )
  ohm('compensationResistor', feedback.compensationResistor_ohm, '5 %', '0.25 W')
  farad('compensationCapacitor', feedback.compensationCapacitor_F, 'film or stable ceramic', '50 V')
  farad('highFrequencyCapacitor', feedback.highFrequencyCapacitor_F, 'stable ceramic', '50 V')
  farad(
    'softFinishCapacitor',
    feedback.softFinishCapacitor_F,
    'electrolytic',
    `over ${volts(1.25 * design.need.trimHigh_V)}`,
  )
  if (parts.indicator)
    ohm('indicatorResistor', design.indicatorResistor_ohm, '5 %', watts(2 * worst(evaluation, 'indicator_W')))
  return rows
}

/** Every line of the parts list, in the order of references. */
export function partsRows(
  evaluation: Evaluation,
  limits: readonly Limit[],
  drawer: Drawer | null,
): PartsRow[] {
  const { parts } = evaluation.design
  const broken = new Set(limits.filter((limit) => !limit.holds).map((limit) => limit.spot))
  const rows: PartsRow[] = []
  for (const [place, part] of Object.entries(parts) as [Place, Part | null][]) {
    if (!part) continue
    const quantity = counted(evaluation, place)
    rows.push({
      reference: reference[place],
      spot: place,
      quantity,
      description: described(evaluation, place, part),
      requirement: [
        requirement(limits, place, evaluation.design),
        ownRequirement(part, evaluation.design, place),
      ]
        .filter(Boolean)
        .join('; '),
      atHand: stock(drawer, part, quantity),
      holds: !broken.has(place),
    })
  }
  for (const row of computedRows(evaluation))
    rows.push({
      reference: reference[row.spot],
      quantity: 1,
      atHand: 'value',
      holds: !broken.has(row.spot),
      ...row,
    })
  const order = (ref: string): [string, number] => [
    ref.replace(/\d+$/, ''),
    Number(ref.match(/\d+$/)?.[0] ?? 0),
  ]
  return rows.sort((a, b) => {
    const [letterA, numberA] = order(a.reference)
    const [letterB, numberB] = order(b.reference)
    return letterA < letterB ? -1 : letterA > letterB ? 1 : numberA - numberB
  })
}
