import { touchLimits_Arms } from '../../mains/index.ts'
import type { StackItem } from '../../supply/build.ts'
import type { Design } from '../../supply/design.ts'
import { requiredCreepage } from '../../supply/resolve/margin.ts'
import { wireGrade } from '../../supply/resolve/wire-grade.ts'
import { once, type Rule } from '../rule.ts'

/** Tape layers between primary side and secondary: three with margins and reinforced, one else. Guide. */
const tapeAsked = (d: Design): number =>
  d.supply.build.transformer.insulation === 'margins' && d.need.insulation === 'reinforced' ? 3 : 1

const isSecondary = (item: StackItem): boolean => item.kind === 'winding' && item.winding === 'secondary'
const isPrimarySide = (item: StackItem): boolean =>
  item.kind === 'shield' || (item.kind === 'winding' && item.winding !== 'secondary')

/** Fewest tape layers met between a secondary part and the primary-side part next to it. */
function thinnestTape(stack: readonly StackItem[]): number {
  let fewest = Number.POSITIVE_INFINITY
  let tape = 0
  let before: StackItem | null = null
  for (const item of stack) {
    if (item.kind === 'tape') {
      tape += item.layers
      continue
    }
    if (before && isSecondary(before) !== isSecondary(item)) fewest = Math.min(fewest, tape)
    before = item
    tape = 0
  }
  return Number.isFinite(fewest) ? fewest : 0
}

/** Distance between the pins of the two sides: of the rows, or nothing where a row holds both. */
function pinDistance_m(d: Design): number {
  const { rowOne, rowDistance_m } = d.parts.former
  const row = (pin: number): number => (pin <= rowOne ? 1 : 2)
  const rows = { primary: new Set<number>(), secondary: new Set<number>() }
  for (const item of d.transformer.stack) {
    if (item.kind === 'tape') continue
    const side = isPrimarySide(item) ? rows.primary : rows.secondary
    if (item.kind === 'shield') side.add(row(item.pin))
    else for (const pin of [item.startPin, item.finishPin]) if (pin !== null) side.add(row(pin))
  }
  for (const r of rows.primary) if (rows.secondary.has(r)) return 0
  return rowDistance_m
}

/** Class of what the wires themselves insulate: 2 reinforced, 1 basic, 0 none. */
function wireClass(d: Design): number {
  const grade = wireGrade(d)
  return grade === 'reinforced' ? 2 : grade === 'basic' ? 1 : 0
}

const yClass = (d: Design): number => {
  const safety = d.parts.yCapacitor?.safetyClass
  return safety === 'Y1' ? 2 : safety === 'Y2' ? 1 : 0
}

/** Way along the board, or through air where a slot of 1 mm or more breaks it. */
function boardAsked_m({ need, supply }: Design): number {
  const { creepage_m, clearance_m } = requiredCreepage(need)
  return (supply.build.boardSlot_m ?? 0) >= 1e-3 ? clearance_m : creepage_m
}

export const insulationRules: readonly Rule[] = [
  once({
    id: 'insulation.margin',
    title: 'Margin at each side',
    spot: 'tape',
    discrete: true,
    basis: 'rule',
    sense: 'at-least',
    unit: 'm',
    band: 0.1,
    applies: (d) => d.supply.build.transformer.insulation === 'margins',
    reading: (_f, d) => d.transformer.margin_m,
    rating: (d) => requiredCreepage(d.need).creepage_m / 2,
    why: 'Primary and secondary creep toward each other round the tape, over both margins. A guide; local rules decide.',
    raise: 'Wider margins, or triple-insulated wire.',
  }),
  once({
    id: 'insulation.tape-width',
    title: 'Tape as wide as the former',
    spot: 'tape',
    basis: 'rule',
    sense: 'at-least',
    unit: 'm',
    band: 0,
    discrete: true,
    applies: (d) => d.supply.build.transformer.insulation === 'margins',
    reading: (_f, d) => d.parts.tape.width_m,
    rating: (d) => d.parts.former.width_m,
    why: 'With margins the tape alone keeps the sides apart: where it ends short of a flange, they meet.',
    raise: 'Wider tape, cut to the former, or triple-insulated wire.',
  }),
  once({
    id: 'insulation.tape',
    title: 'Tape between primary and secondary',
    spot: 'tape',
    basis: 'rule',
    sense: 'at-least',
    unit: '',
    band: 0,
    discrete: true,
    reading: (_f, d) => thinnestTape(d.transformer.stack),
    rating: tapeAsked,
    why: 'Each layer must stand the test voltage with one to spare. A guide; local rules decide.',
    raise: 'More layers of barrier tape.',
  }),
  once({
    id: 'insulation.wire',
    title: 'Insulated wire across the barrier',
    spot: 'secondaryWire',
    basis: 'rule',
    sense: 'at-least',
    unit: '',
    band: 0,
    discrete: true,
    applies: (d) => d.supply.build.transformer.insulation === 'triple-insulated',
    reading: (_f, d) => wireClass(d),
    rating: (d) => (d.need.insulation === 'reinforced' ? 2 : 1),
    why: 'Without margins the wire alone is the barrier: enamel does not count. A guide; local rules decide.',
    raise: 'Triple-insulated wire for the secondary, or for primary and bias both, or margins.',
  }),
  once({
    id: 'insulation.pins',
    title: 'Distance between the pin rows',
    spot: 'former',
    basis: 'rule',
    sense: 'at-least',
    unit: 'm',
    band: 0,
    reading: (_f, d) => pinDistance_m(d),
    rating: (d) => requiredCreepage(d.need).creepage_m,
    why: 'Pins of both sides in one row leave no creepage. A guide; local rules decide.',
    raise: 'Primary side on one row, secondary on the other.',
  }),
  once({
    id: 'insulation.sleeving',
    title: 'Sleeving of leads across the margins',
    spot: 'transformer',
    basis: 'rule',
    sense: 'at-least',
    unit: '',
    band: 0,
    discrete: true,
    applies: (d) => d.supply.build.transformer.insulation === 'margins',
    reading: (_f, d) => (d.supply.build.unsleeved ? 0 : 1),
    rating: () => 1,
    why: 'A bare lead over the margin undoes it: enamel does not count. A guide; local rules decide.',
    raise: 'Sleeving over each lead from inside the margin to its pin.',
  }),
  once({
    id: 'insulation.board',
    title: 'Creepage along the board',
    spot: 'output',
    basis: 'rule',
    sense: 'at-least',
    unit: 'm',
    band: 0,
    applies: (d) => typeof d.supply.build.boardCreepage_m === 'number',
    reading: (_f, d) => d.supply.build.boardCreepage_m ?? 0,
    rating: boardAsked_m,
    why: 'The board is the barrier that is easiest to forget. A guide; local rules decide.',
    raise: 'Tracks of both sides farther apart, or a slot of 1 mm or more between them.',
  }),
  once({
    id: 'insulation.optocoupler',
    title: 'Creepage under the optocoupler',
    spot: 'optocoupler',
    basis: 'rule',
    sense: 'at-least',
    unit: 'm',
    band: 0,
    reading: (_f, d) => d.parts.optocoupler.creepage_m,
    rating: (d) => requiredCreepage(d.need).creepage_m,
    why: 'It bridges the barrier. A guide; local rules decide.',
    raise: 'An optocoupler with wider lead spacing.',
  }),
  once({
    id: 'insulation.clearance',
    title: 'Clearance through air',
    spot: 'optocoupler',
    basis: 'rule',
    sense: 'at-least',
    unit: 'm',
    band: 0,
    // Surface paths of a package and between pin rows are no shorter through air here.
    reading: (_f, d) => Math.min(pinDistance_m(d), d.parts.optocoupler.creepage_m),
    rating: (d) => requiredCreepage(d.need).clearance_m,
    why: 'Surges jump a short gap, sooner in the thin air of a mountain. A guide; local rules decide.',
    raise: 'A former or an optocoupler with wider spacing.',
  }),
  once({
    id: 'y-capacitor.class',
    title: 'Y capacitor class',
    spot: 'yCapacitor',
    sense: 'at-least',
    unit: '',
    band: 0,
    discrete: true,
    applies: (d) => d.parts.yCapacitor !== null,
    reading: (_f, d) => yClass(d),
    rating: (d) => (d.need.insulation === 'reinforced' ? 2 : 1),
    why: 'It bridges the barrier and must fail open: never a part without a Y class.',
    raise: 'A Y1 capacitor, or two Y2 in series.',
  }),
  once({
    id: 'y-capacitor.touch-current',
    title: 'Touch current',
    spot: 'yCapacitor',
    basis: 'rule',
    unit: 'A',
    band: 0.2,
    applies: (d) => d.parts.yCapacitor !== null,
    reading: (f) => f.touchCurrent_Arms,
    rating: (d) => touchLimits_Arms[d.need.outputEarthed ? 'earthed' : 'unearthed'],
    why: 'Too much tingles, and more. An output joined to earth may pass more, for as long as that earth holds.',
    raise: 'A smaller Y capacitor.',
  }),
]
