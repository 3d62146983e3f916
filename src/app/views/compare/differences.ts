import type { Assessment } from '../../../engine/limits/assess.ts'
import { type Limit, rankOf } from '../../../engine/limits/limit.ts'
import type { Place } from '../../../engine/supply/build.ts'
import { at, type Evaluation } from '../../../engine/supply/evaluation.ts'
import { fixedReadingKeys, infoOf, readingKeys } from '../../../engine/supply/reading.ts'
import type { Supply } from '../../../engine/supply/supply.ts'
import { buildSections } from '../../fields/build-fields.ts'
import { partAt } from '../../fields/parts-in-use.ts'
import { show, showRange } from '../../fields/show.ts'
import { valueAt } from '../../state/edits.ts'
import { showRoom } from '../../state/limits.ts'
import { buildStrings } from '../../strings/build.ts'
import { needStrings } from '../../strings/need.ts'
import { shelfStrings } from '../../strings/shelf.ts'

export interface Difference {
  readonly id: string
  readonly label: string
  readonly left: string
  readonly right: string
}

type Line = Omit<Difference, 'left' | 'right'> & { readonly text: string }

const needLines = ({ need }: Supply): Line[] => {
  const { labels } = needStrings
  const { source } = need
  const isMains = source.kind === 'mains'
  const line = (id: string, label: string, text: string): Line => ({ id, label, text })
  return [
    line(
      'source',
      isMains ? labels.mains : labels.dc,
      isMains
        ? `${showRange(source.minimum_Vrms, source.maximum_Vrms, 'V')}, ${show(source.frequency_Hz, 'Hz')}`
        : showRange(source.minimum_V, source.maximum_V, 'V'),
    ),
    line('output_V', labels.output_V, show(need.output_V, 'V')),
    line('trim', labels.trim, showRange(need.trimLow_V, need.trimHigh_V, 'V')),
    line('output_A', labels.output_A, show(need.output_A, 'A')),
    line('ripple', labels.ripple_Vpp, show(need.ripple_Vpp, 'V')),
    line('holdUp', labels.holdUp_s, show(need.holdUp_s, 's')),
    line('feeds', labels.feeds, needStrings.feeds[need.feeds]),
    line('ambient', labels.ambient_C, show(need.ambient_C, '°C')),
    line('cooling', labels.cooling, needStrings.cooling[need.cooling]),
    line('insulation', labels.insulation, needStrings.insulation[need.insulation]),
    line('pollution', labels.pollutionDegree, needStrings.pollution[need.pollutionDegree]),
    line('altitude', labels.altitude_m, show(need.altitude_m, 'metre')),
  ]
}

const partText = (supply: Supply, place: Place, count: number): string => {
  const part = partAt(supply, place)
  if (part === null) return buildStrings.empty
  return count > 1 ? `${count} × ${part.name}` : part.name
}

const buildLines = (supply: Supply, assessment: Assessment | null): Line[] =>
  buildSections.flatMap(({ rows }) =>
    rows.map((row): Line => {
      if (row.is === 'part') {
        const count = row.count ? (valueAt(supply, row.count) as number) : 1
        return {
          id: row.place,
          label: buildStrings.places[row.place],
          text: partText(supply, row.place, count),
        }
      }
      if (row.is === 'snubber') {
        const { snubber } = supply.build
        return {
          id: 'snubber',
          label: buildStrings.labels.snubber,
          text: snubber
            ? `${show(snubber.resistor_ohm, 'Ω')}, ${show(snubber.capacitor_F, 'F')}`
            : buildStrings.empty,
        }
      }
      const value = valueAt(supply, row.path)
      const id = row.path.join('.')
      if (row.is === 'choice')
        return {
          id,
          label: row.label,
          text: row.options.find((o) => o.value === value)?.label ?? String(value),
        }
      if (row.is === 'check') return { id, label: row.label, text: value ? '✓' : '–' }
      if (value !== null) return { id, label: row.label, text: show(value as number, row.unit, 4) }
      const chosen = assessment && row.chosen ? show(row.chosen(assessment.evaluation.design), row.unit) : ''
      return { id, label: row.label, text: `${chosen} ${shelfStrings.chosen}`.trim() }
    }),
  )

const pair = (left: readonly Line[], right: readonly Line[]): Difference[] => {
  const other = new Map(right.map((line) => [line.id, line.text]))
  return left
    .map(({ id, label, text }) => ({ id, label, left: text, right: other.get(id) ?? '–' }))
    .filter((d) => d.left !== d.right)
}

export const needDifferences = (left: Supply, right: Supply): Difference[] =>
  pair(needLines(left), needLines(right))

export const buildDifferences = (
  left: Supply,
  right: Supply,
  leftAnswer: Assessment | null,
  rightAnswer: Assessment | null,
): Difference[] => pair(buildLines(left, leftAnswer), buildLines(right, rightAnswer))

const readingLines = (evaluation: Evaluation): Line[] => {
  const readings = at(evaluation, 'nominal-100')?.readings
  return [
    ...readingKeys.filter((k) => k !== 'mode').map((key) => ({ key, value: readings?.[key] ?? Number.NaN })),
    ...fixedReadingKeys.map((key) => ({ key, value: evaluation.fixed[key] })),
  ].map(({ key, value }) => ({ id: key, label: infoOf(key).label, text: show(value, infoOf(key).unit) }))
}

export const readingDifferences = (left: Evaluation, right: Evaluation): Difference[] =>
  pair(readingLines(left), readingLines(right))

export interface LimitPair {
  readonly id: string
  readonly title: string
  readonly left: Limit | null
  readonly right: Limit | null
}

/** Limits of both, the weaker of each pair first; those which read the same on both sides are left out. */
export const limitPairs = (left: readonly Limit[], right: readonly Limit[]): LimitPair[] => {
  const pairs = new Map<string, LimitPair>()
  for (const limit of left)
    pairs.set(limit.id, { id: limit.id, title: limit.title, left: limit, right: null })
  for (const limit of right) {
    const before = pairs.get(limit.id)
    pairs.set(limit.id, { id: limit.id, title: limit.title, left: before?.left ?? null, right: limit })
  }
  const room = (p: LimitPair) => Math.min(p.left ? rankOf(p.left) : 1, p.right ? rankOf(p.right) : 1)
  return [...pairs.values()]
    .filter((p) => !p.left || !p.right || showRoom(p.left) !== showRoom(p.right))
    .sort((a, b) => room(a) - room(b))
}
