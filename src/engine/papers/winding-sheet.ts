import { insulationBetween, type StackLayout } from '../magnetics/stack/index.ts'
import { formatQuantity, formatRange } from '../quantity/index.ts'
import type { Evaluation } from '../supply/evaluation.ts'
import { type Block, blank, figureCell, type Paper, strong, tick, words } from './document.ts'
import { foot, subtitle } from './heading.ts'
import { type WindingStep, windingSteps } from './winding-steps.ts'

/** Band of a winding's resistance from the wire's diameter and the length of hand-laid turns. Common practice, no source. */
const resistanceBand = 0.1

const millimetres = (length_m: number, digits = 3) => formatQuantity(length_m, 'm', digits)
const metres = (length_m: number) => `${length_m.toFixed(2)} m`
const tapes = (count: number) => (count === 1 ? '1 tape' : `${count} tapes`)

/** Planned resistance at 20 °C of each whole winding. */
const resistances = ({ transformer }: Evaluation['design']): Record<string, number> => ({
  primary: transformer.primaryResistance20_ohm,
  secondary: transformer.secondaryResistance20_ohm,
  bias: transformer.biasResistance20_ohm,
})

function stepsTable(evaluation: Evaluation, layout: StackLayout, steps: readonly WindingStep[]): Block {
  const whole = resistances(evaluation.design)
  const wound = new Map<string, number>()
  for (const section of layout.sections)
    wound.set(section.winding, (wound.get(section.winding) ?? 0) + section.cutLength_m)
  return {
    kind: 'table',
    caption: 'Wind from the former outward, in this order',
    columns: [
      { title: '' },
      { title: 'Step' },
      { title: 'Wire' },
      { title: 'Turns', number: true },
      { title: 'by layer' },
      { title: 'Start ●' },
      { title: 'Finish' },
      { title: 'Sense' },
      { title: 'Cut, each', number: true },
      { title: 'Then lay' },
      { title: 'Expect', number: true },
      { title: 'Read' },
    ],
    rows: steps.map((step) => {
      const { section } = step
      const share = section.cutLength_m / wound.get(section.winding)!
      const resistance = whole[section.winding]
      return [
        tick,
        strong(`${step.number} ${step.name}`),
        words(step.wire),
        figureCell(String(section.turns)),
        words(step.layerTurns),
        words(`pin ${section.startPin}`),
        words(
          step.joinsNext
            ? `pin ${section.finishPin}, joint to ${step.joinsNext}`
            : `pin ${section.finishPin}`,
        ),
        words(section.direction === 'clockwise' ? 'clockwise' : 'counter-cl.'),
        figureCell(metres(section.cutLength_m)),
        words(
          [
            step.tapeAfter > 0 ? tapes(step.tapeAfter) : '',
            step.shieldPin === null ? '' : `shield to pin ${step.shieldPin}, open turn`,
          ]
            .filter(Boolean)
            .join(', '),
        ),
        figureCell(resistance !== undefined ? formatQuantity(resistance * share, 'ohm', 2) : ''),
        blank('Ω'),
      ]
    }),
  }
}

function testCard(evaluation: Evaluation): Block {
  const { transformer: t, need } = evaluation.design
  const fixed = evaluation.fixed
  const around = (value: number, unit: 'ohm' | 'H', band: number) =>
    formatRange(value * (1 - band), value * (1 + band), unit)
  const inductance = t.plannedInductance_H
  const scale = (value: number) =>
    formatRange(
      (value / inductance.typical) * inductance.minimum,
      (value / inductance.typical) * inductance.maximum,
      'H',
    )
  const rows: [string, string, string, string][] = [
    [
      'Primary inductance, all else open',
      formatQuantity(inductance.typical, 'H'),
      formatRange(inductance.minimum, inductance.maximum, 'H'),
      'H',
    ],
    [
      'Leakage: at the primary, all others shorted at their pins',
      formatQuantity(t.plannedLeakage_H.typical, 'H', 2),
      formatRange(t.plannedLeakage_H.minimum, t.plannedLeakage_H.maximum, 'H', 2),
      'H',
    ],
    [
      'Primary + secondary in series, dots aiding',
      formatQuantity(fixed.aiding_H, 'H'),
      scale(fixed.aiding_H),
      'H',
    ],
    [
      'Primary + secondary in series, dots opposing',
      formatQuantity(fixed.opposing_H, 'H'),
      scale(fixed.opposing_H),
      'H',
    ],
    [
      'Primary resistance at 20 °C',
      formatQuantity(t.primaryResistance20_ohm, 'ohm'),
      around(t.primaryResistance20_ohm, 'ohm', resistanceBand),
      'Ω',
    ],
    [
      'Secondary resistance at 20 °C',
      formatQuantity(t.secondaryResistance20_ohm, 'ohm'),
      around(t.secondaryResistance20_ohm, 'ohm', resistanceBand),
      'Ω',
    ],
    [
      'Bias resistance at 20 °C',
      formatQuantity(t.biasResistance20_ohm, 'ohm'),
      around(t.biasResistance20_ohm, 'ohm', resistanceBand),
      'Ω',
    ],
    [
      'Insulation, primary to secondary, 500 V DC',
      'over 100 MΩ',
      need.insulation === 'reinforced' ? 'withstand test: see local code' : 'see local code',
      'Ω',
    ],
  ]
  return {
    kind: 'table',
    caption: 'Test card, before it is soldered in',
    columns: [
      { title: 'Reading' },
      { title: 'Expect', number: true },
      { title: 'Band', number: true },
      { title: 'Measured' },
      { title: 'Meter, frequency' },
    ],
    rows: rows.map(([what, expect, band, unit]) => [
      words(what),
      figureCell(expect),
      figureCell(band),
      blank(unit),
      blank(''),
    ]),
  }
}

function gapWords(evaluation: Evaluation): string {
  const { transformer: t, parts } = evaluation.design
  if (t.gapPlace === 'post') return `${millimetres(t.gap_m)} ground into the post, outer legs closed`
  const film = parts.spacerFilm
    ? ` (${Math.max(1, Math.round(t.gap_m / parts.spacerFilm.thickness_m))} × ${millimetres(parts.spacerFilm.thickness_m)} film)`
    : ''
  return `${millimetres(t.gap_m)} spacer under every leg${film}`
}

/** Winding sheet: everything needed at the winder, from the barrel outward, with readings to check at each stage. */
export function windingSheet(evaluation: Evaluation): Paper {
  const { transformer: t, parts } = evaluation.design
  const { layout } = t.coil
  const steps = windingSteps(layout)
  const barrier = insulationBetween(layout).find((pair) => pair.from === 'primary' && pair.to === 'secondary')
  const margins = t.margin_m > 0
  const insulation = margins
    ? `Margin tape ${millimetres(t.margin_m)} at both ends of every layer; wind between the margins. Tape is ${millimetres(parts.former.width_m)} wide or more, each layer overlapping its own start by 5 mm and lapping up the flanges. Sleeve every lead where it crosses a margin or another winding.`
    : `Triple-insulated wire: no margins. Keep its insulation whole up to the pin; do not scrape inside the coil. Tape is the full ${millimetres(parts.former.width_m)} wide, overlapping its own start by 5 mm. Sleeve every lead that crosses another winding.`
  return {
    id: 'winding-sheet',
    title: 'Winding sheet',
    subtitle: subtitle(evaluation),
    foot: foot(evaluation),
    blocks: [
      {
        kind: 'facts',
        facts: [
          { label: 'Core', value: `${parts.core.size}, ${parts.material.class}` },
          {
            label: 'Former',
            value: `${parts.former.rowOne} + ${parts.former.rowTwo} pins, ${millimetres(parts.former.width_m)} × ${millimetres(parts.former.height_m)}`,
          },
          { label: 'Gap', value: gapWords(evaluation) },
          {
            label: 'Inductance decides, not thickness',
            value: `${formatRange(t.plannedInductance_H.minimum, t.plannedInductance_H.maximum, 'H')} (${formatQuantity(t.inductanceFactor_H, 'H')} a turn²)`,
          },
          {
            label: 'Build-up',
            value: `${millimetres(layout.build_m)} of ${millimetres(layout.windowHeight_m)} (${Math.round(layout.fill * 100)} %)`,
          },
        ],
      },
      {
        kind: 'columns',
        columns: [
          [
            {
              kind: 'figure',
              figure: 'winding-section',
              caption: 'Section to scale, former below. Dashed: build-up.',
            },
          ],
          [
            { kind: 'figure', figure: 'former-above', caption: '' },
            { kind: 'figure', figure: 'former-pins', caption: 'Square: pin 1. ● start, the dot.' },
          ],
        ],
      },
      stepsTable(evaluation, layout, steps),
      ...steps
        .filter((step) => step.section.turns >= 10)
        .map(
          (step): Block => ({
            kind: 'tally',
            label: `${step.name} tally`,
            count: step.section.turns,
            every: 5,
          }),
        ),
      { kind: 'paragraph', text: insulation },
      ...(layout.input.tapeLayersInside > 0
        ? [
            {
              kind: 'paragraph',
              text: `Between the layers of one winding: ${tapes(layout.input.tapeLayersInside)}.`,
            } as const,
          ]
        : []),
      ...(steps.some((step) => step.joinsNext)
        ? [
            {
              kind: 'paragraph',
              text: 'The joint of the split winding is insulated and goes nowhere else: cut its pin short or leave it off the board.',
            } as const,
          ]
        : []),
      testCard(evaluation),
      {
        kind: 'caution',
        text: `Between primary and secondary as wound: ${barrier ? `${tapes(barrier.tapeLayers)}, ${millimetres(barrier.surface_m)} along surfaces` : 'no barrier'}. A reading on this card does not certify insulation. A withstand test is a shock hazard of its own: guarded, current-limited, discharged afterwards, by someone licensed where the law asks for it.`,
      },
    ],
  }
}
