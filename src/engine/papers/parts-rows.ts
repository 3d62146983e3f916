import type { Limit } from '../limits/limit.ts'
import type { Drawer, Part } from '../parts/part.ts'
import { formatQuantity } from '../quantity/index.ts'
import type { Place } from '../supply/build.ts'
import type { Evaluation } from '../supply/evaluation.ts'
import { clampRating_W } from '../supply/heat-stops.ts'
import { piecesAt } from '../supply/pieces.ts'
import type { ReadingKey } from '../supply/reading.ts'
import { reference, type Spot } from '../supply/refs.ts'
import { preferredNearest } from '../supply/resolve/preferred.ts'
import { lengthOf, metres } from './lengths.ts'
import { requirement } from './requirement.ts'
import { ownRequirement } from './substitute.ts'
import { readingOf } from './worst.ts'

/** One line of the parts list: what stands where, what it must stand, and whether the drawer has it. */
export interface PartsRow {
  readonly reference: string
  readonly spot: Spot
  /** How many pieces, how much of what comes by length, or as needed. */
  readonly amount: string
  readonly description: string
  /** What any substitute must stand, each with the worst reading of this supply. */
  readonly requirement: string
  /** What the drawer has of it; `value`: not looked for there; `unasked`: no drawer was given. */
  readonly atHand: 'have' | 'short' | 'buy' | 'value' | 'unasked'
  readonly holds: boolean
}

/** Pieces of film under the legs: one stack at each of the three places where the halves meet. */
const spacerPieces = ({ design }: Evaluation, thickness_m: number): number =>
  3 * Math.max(1, Math.round(design.transformer.gap_m / thickness_m))

/** What a heatsink or pad belongs to. */
const cools: Partial<Record<Place, string>> = {
  switcherHeatsink: 'the switcher U1',
  switcherPad: 'the switcher U1',
  rectifierHeatsink: 'the rectifier D4',
  rectifierPad: 'the rectifier D4',
}

/** A part with what is made of it or what it is for: turns of the choke, the part that it cools. */
function described(evaluation: Evaluation, place: Place, part: Part): string {
  const { chokeTurns, chokeInHand, parts } = evaluation.design
  if (place === 'core') return `${part.name}, ${parts.material.name.replace(/^./, (c) => c.toLowerCase())}`
  if (place === 'chokeWire') return `${part.name}: ${chokeTurns} turns, ${chokeInHand} in hand`
  const cooled = cools[place]
  if (cooled) return `${part.name}, for ${cooled}`
  return part.name
}

/** Whether the drawer has so many of a part; wire, tape and film by the length are not counted. */
function stock(drawer: Drawer | null, part: Part, count: number): PartsRow['atHand'] {
  if (!drawer) return 'unasked'
  const entry = drawer.entries.find((candidate) => candidate.part.id === part.id)
  if (!entry) return 'buy'
  return entry.quantity === null || entry.quantity >= count ? 'have' : 'short'
}

/** Greatest reading anywhere. */
const worst = (evaluation: Evaluation, key: ReadingKey): number =>
  evaluation.conditions.reduce((most, c) => (c.runs ? Math.max(most, c.readings[key]) : most), 0)

const watts = (value: number) => formatQuantity(value, 'W', 2)
const volts = (value: number) => formatQuantity(value, 'V')

type ComputedRow = Pick<PartsRow, 'spot' | 'description' | 'requirement'> & { readonly amount?: string }

/** Resistors and small capacitors whose values are computed, with what they must stand. */
function computedRows(evaluation: Evaluation, limits: readonly Limit[]): ComputedRow[] {
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
      amount: '2',
      description: `${formatQuantity(preferredNearest(design.bleed_ohm / 2, 'E24'), 'ohm')} resistor, two in series for ${formatQuantity(design.bleed_ohm, 'ohm')}`,
      requirement: `${volts(worst(evaluation, 'bulkPeak_V'))} across both`,
    })
  if (snubber) {
    ohm('snubberResistor', snubber.resistor_ohm, 'not wire-wound', watts(2 * worst(evaluation, 'snubber_W')))
    farad(
      'snubberCapacitor',
      snubber.capacitor_F,
      'ceramic',
      `over ${volts(readingOf(limits, 'rectifier.reverse-margin') ?? worst(evaluation, 'rectifierReversePeak_V'))}`,
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

/** What keeps the sides of the transformer apart besides its tape. */
function barrierRows({ design }: Evaluation): ComputedRow[] {
  const { margin_m } = design.transformer
  const sleeving: ComputedRow = {
    spot: 'transformer',
    amount: 'as needed',
    description: 'Sleeving for leads between winding and pin',
    requirement: 'wall 0.4 mm or more, 130 °C or better',
  }
  if (margin_m === 0) return [sleeving]
  const margins: ComputedRow = {
    spot: 'transformer',
    amount: 'as needed',
    description: `Margin tape ${formatQuantity(margin_m, 'm')} wide, as high as each layer of wire`,
    requirement: '130 °C or better',
  }
  return [margins, sleeving]
}

/** How many of each part the whole supply takes, by its id. */
function piecesById(evaluation: Evaluation): ReadonlyMap<string, number> {
  const pieces = new Map<string, number>()
  for (const [place, part] of Object.entries(evaluation.design.parts) as [Place, Part | null][])
    if (part)
      pieces.set(part.id, (pieces.get(part.id) ?? 0) + piecesAt(evaluation.design.supply.build, place))
  return pieces
}

const worse = (a: PartsRow['atHand'], b: PartsRow['atHand']): PartsRow['atHand'] => (a === 'have' ? b : a)

/** Every line of the parts list, in the order of references. A core and its ferrite are one line: they are one part. */
export function partsRows(
  evaluation: Evaluation,
  limits: readonly Limit[],
  drawer: Drawer | null,
): PartsRow[] {
  const { parts } = evaluation.design
  const broken = new Set(limits.filter((limit) => !limit.holds).map((limit) => limit.spot))
  const pieces = piecesById(evaluation)
  const rows: PartsRow[] = []
  const must = (place: Place, part: Part): string[] => [
    requirement(limits, place, evaluation.design),
    ownRequirement(part, evaluation.design, place),
  ]
  for (const [place, part] of Object.entries(parts) as [Place, Part | null][]) {
    if (!part || place === 'material') continue
    const length_m = lengthOf(evaluation, place)
    const isCore = place === 'core'
    const count =
      part.kind === 'film'
        ? spacerPieces(evaluation, part.thickness_m)
        : piecesAt(evaluation.design.supply.build, place)
    const isCut = length_m !== null || part.kind === 'film'
    const own = stock(drawer, part, isCut ? 1 : (pieces.get(part.id) ?? 1))
    rows.push({
      reference: reference[place],
      spot: place,
      amount: length_m === null ? String(count) : metres(length_m),
      description: described(evaluation, place, part),
      requirement: [...must(place, part), ...(isCore ? must('material', parts.material) : [])]
        .filter(Boolean)
        .join('; '),
      atHand: isCore ? worse(own, stock(drawer, parts.material, 1)) : own,
      holds: !broken.has(place) && !(isCore && broken.has('material')),
    })
  }
  for (const row of [...computedRows(evaluation, limits), ...barrierRows(evaluation)])
    rows.push({
      reference: reference[row.spot],
      amount: '1',
      atHand: 'value',
      holds: row.spot === 'transformer' || !broken.has(row.spot),
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
