import {
  type BarrierLink,
  guideNote,
  requiredDistances,
  spacingOuterUncoated,
  trackWidth,
} from '../insulation/index.ts'
import type { Limit } from '../limits/limit.ts'
import { formatQuantity } from '../quantity/index.ts'
import { bulkDischarge, dischargeResistor } from '../supply/bulk-discharge.ts'
import { type Evaluation, greatest } from '../supply/evaluation.ts'
import type { ReadingKey } from '../supply/reading.ts'
import { insulationBasis } from '../supply/resolve/margin.ts'
import { barrierOf } from './barrier.ts'
import { type Block, blank, figureCell, type Paper, strong, tick, words } from './document.ts'
import { foot, subtitle } from './heading.ts'
import { readingOf, steadyWorst } from './worst.ts'

/** Copper and rise that track widths are given for. */
const copper_m = 35e-6
const rise_K = 20

const most = (evaluation: Evaluation, key: ReadingKey): number =>
  greatest(evaluation, key)?.readings[key] ?? Number.NaN
const millimetres = (length_m: number) => formatQuantity(length_m, 'm', 2)

const linkValue = (link: BarrierLink, value: number): string => {
  switch (link.unit) {
    case 'm':
      return millimetres(value)
    case 'V':
      return `${formatQuantity(value, 'V')} peak`
    case 'layers':
      return String(value)
    case 'class':
      if (link.link === 'Y capacitor') return ['no Y class', 'Y2', 'Y1'][value]!
      if (link.link === 'sleeving') return value > 0 ? 'sleeved' : 'bare'
      return ['enamel only', 'basic', 'reinforced'][value]!
  }
}

/** Barrier walk: required by the guide against achieved by the build. */
function barrierTable(evaluation: Evaluation): Block {
  const { design } = evaluation
  return {
    kind: 'table',
    caption: `Barrier walk (${guideNote})`,
    columns: [
      { title: '' },
      { title: 'Link' },
      { title: 'What is counted' },
      { title: 'Required', number: true },
      { title: 'This build', number: true },
      { title: 'Guide' },
      { title: 'As built' },
    ],
    rows: barrierOf(design).links.map((link) => {
      const noCapacitor = link.link === 'Y capacitor' && design.parts.yCapacitor === null
      const stated = link.verdict !== 'not stated'
      return [
        tick,
        strong(link.link),
        words([link.quantity, link.note].filter(Boolean).join('; ')),
        figureCell(linkValue(link, link.required)),
        figureCell(noCapacitor ? 'none fitted' : stated ? linkValue(link, link.achieved) : 'measure'),
        noCapacitor ? words('') : link.verdict === 'short' ? strong('SHORT') : words(stated ? 'reached' : ''),
        blank(''),
      ]
    }),
  }
}

/** Spacing inside one side, where no barrier runs. */
function spacingTable(evaluation: Evaluation, limits: readonly Limit[]): Block {
  const drain = readingOf(limits, 'switcher.drain-voltage') ?? most(evaluation, 'drainPeak_V')
  const bulk = most(evaluation, 'bulkPeak_V')
  const rectifier =
    readingOf(limits, 'rectifier.reverse-margin') ?? most(evaluation, 'rectifierReversePeak_V')
  const rows: [string, number][] = [
    ['Line to neutral, and to bulk\u00a0−, before and after the fuse', bulk],
    ['Bulk\u00a0+ to bulk\u00a0−', bulk],
    ['Drain to bulk\u00a0− and to the control pin', drain],
    ['Drain to bulk\u00a0+', Math.max(0, drain - bulk)],
    ['Rectifier: winding end to output', rectifier],
  ]
  return {
    kind: 'table',
    caption: `Spacing inside each side (outer layer, no coating; ${guideNote})`,
    columns: [
      { title: '' },
      { title: 'Between' },
      { title: 'Peak', number: true },
      { title: 'Keep', number: true },
    ],
    rows: rows
      .filter(([, peak]) => Number.isFinite(peak))
      .map(([between, peak]) => [
        tick,
        words(between),
        figureCell(formatQuantity(peak, 'V')),
        figureCell(millimetres(spacingOuterUncoated(peak))),
      ]),
  }
}

/** Track widths by current. */
function trackTable(evaluation: Evaluation): Block {
  const rows: [string, number][] = [
    ['Mains input to bridge', steadyWorst(evaluation, 'inputCurrent_Arms')],
    ['Bulk\u00a0+ to T1, drain, source to bulk\u00a0−', steadyWorst(evaluation, 'primary_Arms')],
    ['T1 secondary to rectifier to first output capacitor', steadyWorst(evaluation, 'secondary_Arms')],
    ['Output capacitor to terminals', steadyWorst(evaluation, 'output_A')],
  ]
  return {
    kind: 'table',
    caption: `Track width on ${formatQuantity(copper_m, 'm')} copper, ${rise_K} K rise, outer layer`,
    columns: [
      { title: '' },
      { title: 'Track' },
      { title: 'Current', number: true },
      { title: 'Width', number: true },
    ],
    rows: rows
      .filter(([, current]) => Number.isFinite(current))
      .map(([track, current]) => [
        tick,
        words(track),
        figureCell(`${formatQuantity(current, 'A', 2)} rms`),
        figureCell(
          millimetres(Math.max(0.3e-3, trackWidth(Math.min(35, current), rise_K, copper_m, 'external'))),
        ),
      ]),
  }
}

/** Loops whose area decides noise and spikes, tightest first. */
function loops({ design }: Evaluation): string[] {
  const clamp =
    design.clamp.style === 'avalanche' ? 'D2, D1 and the primary of T1' : 'C3, D1 and the primary of T1'
  return [
    'C2 + → primary of T1 → U1 drain → U1 source → C2 −: smallest area of all, C2 next to U1 and T1.',
    `${clamp}: short leads, away from the control pin.`,
    'Secondary of T1 → D4 → C7 → back: wide and short; sense and LED feed leave from behind C7, never from this loop.',
    'Control pin of U1, its capacitor and U2: one thin return straight to the source pin, joined to bulk − there alone.',
    'Bias winding → D3 → C5 → bulk −: its own return to C2 −.',
    ...(design.parts.yCapacitor
      ? ['C12: from bulk − (or bulk +) next to T1 to output − next to T1, by tracks of its own.']
      : []),
    ...(design.parts.commonModeChoke
      ? ['Input filter away from T1 and drain, in one line from plug to bridge; output wires do not pass it.']
      : []),
  ]
}

/** Greatest loss and temperature of each part that gets warm. */
function heatTable(evaluation: Evaluation): Block {
  const { parts, clamp } = evaluation.design
  const rows: [string, string, ReadingKey, ReadingKey | null, string][] = [
    [
      'U1',
      'switcher',
      'switch_W',
      'switchJunction_C',
      parts.switcher.tabIsDrain
        ? 'TAB IS DRAIN: pad under it, away from the case'
        : 'copper or heatsink at its source side',
    ],
    ['D4', 'rectifier', 'rectifier_W', 'rectifierJunction_C', 'copper at its cathode, away from C7'],
    ['T1', 'transformer', 'transformer_W', 'transformer_C', 'air on all sides'],
    clamp.style === 'avalanche'
      ? ['D2', 'clamp', 'clamp_W', 'clampAvalanche_C', 'clear of C2 and of plastic']
      : ['R2', 'clamp resistor', 'clamp_W', null, 'stands off the board, clear of C2 and of plastic'],
    ...(parts.bridge
      ? ([['BR1', 'bridge', 'bridge_W', 'bridgeJunction_C', 'copper']] as [
          string,
          string,
          ReadingKey,
          ReadingKey,
          string,
        ][])
      : []),
    ...(parts.ntc
      ? ([['RT1', 'inrush limiter', 'ntc_W', null, 'hot by design: stands off, clear of everything']] as [
          string,
          string,
          ReadingKey,
          null,
          string,
        ][])
      : []),
    ['C7', 'output capacitors', 'outputCapacitor_W', 'outputCapacitor_C', 'away from D4 and heatsinks'],
  ]
  return {
    kind: 'table',
    caption: `Heat, where it is worst of all loads and inputs, in ${formatQuantity(evaluation.design.need.ambient_C, 'C')} of air`,
    columns: [
      { title: 'Ref.' },
      { title: 'Part' },
      { title: 'Loss', number: true },
      { title: 'Reaches', number: true },
      { title: 'Place' },
    ],
    rows: rows.map(([ref, part, loss, temperature, place]) => [
      strong(ref),
      words(part),
      figureCell(formatQuantity(steadyWorst(evaluation, loss), 'W', 2)),
      figureCell(temperature ? formatQuantity(steadyWorst(evaluation, temperature), 'C', 3) : ''),
      words(place),
    ]),
  }
}

function slotWords(evaluation: Evaluation): string {
  const { creepage_m, clearance_m } = requiredDistances(
    insulationBasis(evaluation.design.need, evaluation.design.transformer.reflectedVoltage_V),
  )
  return `Keep ${millimetres(creepage_m)} along the board and ${millimetres(clearance_m)} through air between everything primary and everything secondary, screws, heatsinks and the core counted as what they touch. Under U2, and under T1 where its pin rows leave less, a slot of 1 mm or more breaks the path along the board; round its ends the whole way still counts. Draw the barrier as a line on both sides of the board and let nothing but ${evaluation.design.parts.yCapacitor ? 'T1, U2 and C12' : 'T1 and U2'} cross it.`
}

function dischargeWords(evaluation: Evaluation): string {
  const peak = most(evaluation, 'bulkPeak_V')
  if (!Number.isFinite(peak)) return 'Bulk capacitor: discharge through a resistor, measure, then touch.'
  const { energy_J, time_s } = bulkDischarge(evaluation.design, peak)
  const { resistance_ohm, power_W, voltage_V, to_V } = dischargeResistor
  return `Bulk capacitor: ${formatQuantity(energy_J, 'J', 2)} at ${formatQuantity(peak, 'V')}, and it stays after unplugging. Leave two pads for a discharge resistor: ${formatQuantity(resistance_ohm, 'ohm')}, ${power_W} W wirewound for ${voltage_V} V, brings it under ${to_V} V in ${formatQuantity(time_s, 's', 2)}; hold it on for twice as long. Measure before you touch.`
}

/** What the board must keep: barrier, spacing, loops, widths, heat. */
export const boardNotes = (evaluation: Evaluation, limits: readonly Limit[]): Paper => ({
  id: 'board-notes',
  title: 'Board notes',
  subtitle: subtitle(evaluation),
  foot: foot(evaluation),
  blocks: [
    barrierTable(evaluation),
    { kind: 'paragraph', text: slotWords(evaluation) },
    { kind: 'caution', text: dischargeWords(evaluation) },
    { kind: 'columns', columns: [[spacingTable(evaluation, limits)], [trackTable(evaluation)]] },
    { kind: 'heading', text: 'Hot loops, the tightest first' },
    { kind: 'list', items: loops(evaluation), ticked: true },
    heatTable(evaluation),
  ],
})
