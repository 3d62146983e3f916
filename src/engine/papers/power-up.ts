import { formatQuantity, formatRange, shownUnit, type Unit } from '../quantity/index.ts'
import type { Evaluation } from '../supply/evaluation.ts'
import { type Block, blank, type Cell, figureCell, type Paper, tick, words } from './document.ts'
import { foot, subtitle } from './heading.ts'

/** One reading of a power-up, as much of it as the card prints. */
export interface CardCheck {
  readonly id: string
  readonly what: string
  readonly live: boolean
  readonly probe: { readonly at: string; readonly reference: string } | null
  readonly chosen:
    | { readonly state: 'doable' | 'substitute'; readonly way: { readonly how: string } }
    | { readonly state: 'skipped'; readonly risk: string }
  readonly expected: {
    readonly low: number | null
    readonly typical: number
    readonly high: number | null
    readonly unit: Unit
  } | null
  readonly state: {
    readonly expect: string
    readonly answers: readonly { readonly id: string; readonly label: string }[]
  } | null
  readonly stop: {
    readonly below: number | null
    readonly above: number | null
    readonly text: string
  } | null
}

export interface CardStage {
  readonly id: string
  readonly title: string
  readonly purpose: string
  readonly live: boolean
  readonly setUp: readonly string[]
  readonly cautions: readonly string[]
  readonly checks: readonly CardCheck[]
  readonly stops: readonly string[]
  readonly leave: string
}

/** A power-up plan, as much of it as the card prints. */
export interface PowerUpCard {
  readonly stages: readonly CardStage[]
  readonly doNotPower: readonly string[]
  readonly cautions: readonly string[]
}

/** Band of a number in words: a range, or the one end that counts. */
export function bandWords(e: NonNullable<CardCheck['expected']>): string {
  if (e.low !== null && e.high !== null) return formatRange(e.low, e.high, e.unit)
  if (e.high !== null) return `up to ${formatQuantity(e.high, e.unit)}`
  return e.low !== null ? `over ${formatQuantity(e.low, e.unit)}` : formatQuantity(e.typical, e.unit)
}

const expectation = (c: CardCheck): string =>
  c.expected
    ? bandWords(c.expected)
    : (c.state?.answers.find((a) => a.id === c.state?.expect)?.label ?? c.state?.expect ?? '')

function stopWords({ stop, expected }: CardCheck): string {
  if (stop === null || expected === null) return ''
  const { below, above } = stop
  const ends = [
    below === null || below === expected.low ? '' : `below ${formatQuantity(below, expected.unit)}`,
    above === null || above === expected.high ? '' : `above ${formatQuantity(above, expected.unit)}`,
  ].filter((end) => end !== '')
  return ends.join(', ')
}

/** Unit to write a reading in: that of the expected value, or of the one end that counts. */
function unitOf({ expected: e }: CardCheck): string {
  if (e === null) return ''
  return shownUnit((e.low === null ? e.high : e.high === null ? e.low : e.typical) ?? e.typical, e.unit)
}

const points = (c: CardCheck): string => (c.probe ? `${c.probe.at} to ${c.probe.reference}` : '')

const checkRow = (c: CardCheck): readonly Cell[] => [
  tick,
  words(c.what),
  words(points(c)),
  figureCell(expectation(c)),
  figureCell(stopWords(c)),
  blank(unitOf(c)),
]

const titles = ['', 'Read', 'Between', 'Expect', 'Off', 'Is'] as const

/** Readings of a stage that the instruments at hand can take; each table may begin a page, so each has its titles. */
const tableOf = (checks: readonly CardCheck[]): Block => ({
  kind: 'table',
  caption: '',
  columns: titles.map((title) => ({
    title,
    number: title === 'Expect' || title === 'Off',
  })),
  rows: checks.filter((c) => c.chosen.state !== 'skipped').map(checkRow),
})

const isStepId = (id: string): boolean => id.startsWith('line-')
const isStep = (stage: CardStage): boolean => isStepId(stage.id)
const nameOf = (c: CardCheck): string => c.id.slice(c.id.indexOf('.') + 1)

/** The load steps side by side: one row a reading, one column a step, expected over a line to write on. */
function stepTable(steps: readonly CardStage[]): Block {
  const names = [...new Set(steps.flatMap((s) => s.checks.map(nameOf)))]
  const shared = names.filter(
    (name) => steps.filter((s) => s.checks.some((c) => nameOf(c) === name)).length > 1,
  )
  return {
    kind: 'table',
    caption: 'Load steps on the full line',
    columns: [
      { title: 'Read' },
      ...steps.map((s) => ({ title: s.title.replace('Full line, ', ''), number: true })),
    ],
    rows: shared.flatMap((name): readonly (readonly Cell[])[] => {
      const found = steps.map((s) => s.checks.find((c) => nameOf(c) === name) ?? null)
      const any = found.find((c) => c !== null)
      if (!any) return []
      const what = any.what.replace(/, (no load|\d+ % load)$/, '')
      return [
        [words(what), ...found.map((c) => figureCell(c ? expectation(c) : ''))],
        [words(points(any)), ...found.map((c) => (c ? blank(unitOf(c)) : words('')))],
      ]
    }),
  }
}

/** Box at the head of what is read live, with what is special to it. */
const liveCaution = (cautions: readonly string[]): Block => ({
  kind: 'caution',
  text: [
    'LIVE: mains kills. Hands off the primary; unplug, discharge and read C2 before any change.',
    ...cautions,
  ].join(' '),
})

/** One stage: how to set up, when to switch off, what to read. `without` is left out, it stands elsewhere on the card. */
function stageBlocks(stage: CardStage, without: string): readonly Block[] {
  const setUp = stage.setUp.filter((line) => line !== without)
  return [
    { kind: 'heading', text: stage.title },
    ...(stage.live ? [liveCaution(stage.cautions)] : []),
    { kind: 'paragraph', text: [stage.purpose, ...setUp, ...stage.stops].join(' ') },
    tableOf(stage.checks),
  ]
}

/** The last stages under one heading, their readings in one table. */
function closing(stages: readonly CardStage[], without: string): readonly Block[] {
  return [
    { kind: 'heading', text: stages.map((s) => s.title).join(', ') },
    liveCaution(stages.filter((s) => s.live).flatMap((s) => s.cautions)),
    ...stages.map(
      (s): Block => ({
        kind: 'paragraph',
        text: [`${s.title}:`, s.purpose, ...s.setUp.filter((line) => line !== without), ...s.stops].join(' '),
      }),
    ),
    tableOf(stages.flatMap((s) => s.checks)),
  ]
}

/** Risks that end in a shock or a blown switch, worst told first. */
const dangers = [
  /shock|touch|person|barrier|insulation/i,
  /switch|kill|reversed|saturat|stress|rating/i,
  /heat|smell/i,
]
const rank = (risk: string): number => {
  const found = dangers.findIndex((danger) => danger.test(risk))
  return found < 0 ? dangers.length : found
}

/** What is left out with the instruments at hand, those with the same risk together, the most dangerous first. */
function skippedBlocks(checks: readonly CardCheck[]): readonly Block[] {
  const byRisk = new Map<string, string[]>()
  for (const c of checks)
    if (c.chosen.state === 'skipped')
      byRisk.set(c.chosen.risk, [...(byRisk.get(c.chosen.risk) ?? []), c.what])
  if (byRisk.size === 0) return []
  const items = [...byRisk]
    .sort(([a], [b]) => rank(a) - rank(b))
    .map(([risk, what]) => `${risk} Not read: ${what.join('; ')}.`)
  return [
    { kind: 'heading', text: 'Skipped with the instruments at hand, the most dangerous first' },
    { kind: 'list', items, ticked: false },
  ]
}

/** Box at the head of a card that must not be followed, with the reasons. */
const refusal = (reasons: readonly string[]): readonly Block[] =>
  reasons.length === 0
    ? []
    : [
        {
          kind: 'caution',
          text: `DO NOT POWER: the transformer as measured is rejected. ${reasons.map((r) => `${r[0]?.toUpperCase()}${r.slice(1)}.`).join(' ')}`,
        },
      ]

const unpowered = ['cold', 'transformer', 'low-energy']

/**
 * Power-up card for the bench, two pages: what is read unpowered, then what is read live, with expected values, the
 * readings at which to switch off, and lines to write on; the load steps side by side. Takes the plan by its shape, so
 * that rooms beside each other need not know each other.
 */
export function powerUpPaper(evaluation: Evaluation, plan: PowerUpCard): Paper {
  const steps = plan.stages.filter(isStep)
  const live = plan.stages.find((s) => s.live)
  const isolation = live?.setUp.at(-1) ?? ''
  const pick = (ids: (id: string) => boolean): readonly Block[] =>
    plan.stages.filter((s) => ids(s.id)).flatMap((s) => stageBlocks(s, isolation))
  const counted = steps.flatMap((s) => s.checks.map(nameOf))
  const once = steps
    .flatMap((s) => s.checks)
    .filter((c) => counted.filter((n) => n === nameOf(c)).length === 1)
  const last = ['short', 'soak', 'sign-off']
  return {
    id: 'power-up',
    title: 'First light',
    subtitle: subtitle(evaluation),
    foot: foot(evaluation),
    blocks: [
      ...refusal(plan.doNotPower),
      { kind: 'caution', text: plan.cautions.join(' ') },
      ...pick((id) => unpowered.includes(id)),
      ...skippedBlocks(plan.stages.flatMap((s) => s.checks)),
      {
        kind: 'caution',
        text: `After every live stage, before anything is touched: ${live?.leave ?? ''} ${isolation}`,
      },
      ...pick((id) => !unpowered.includes(id) && !last.includes(id) && !isStepId(id)),
      { kind: 'heading', text: 'Full line' },
      liveCaution(steps[0]?.cautions ?? []),
      {
        kind: 'list',
        items: [
          `${live?.leave ?? ''} Only then take the lamp out of the lead; the fuse of the supply stays in.`,
        ],
        ticked: true,
      },
      { kind: 'paragraph', text: steps[0]?.stops.join(' ') ?? '' },
      stepTable(steps),
      tableOf(once),
      ...closing(
        plan.stages.filter((s) => last.includes(s.id)),
        isolation,
      ),
    ],
  }
}
