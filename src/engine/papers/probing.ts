import { formatQuantity } from '../quantity/index.ts'
import type { Evaluation } from '../supply/evaluation.ts'
import { type Block, type Paper, strong, tick, words } from './document.ts'
import { foot, subtitle } from './heading.ts'
import { withTestPoint } from './test-points.ts'

interface ProbedWay {
  readonly instruments: readonly string[]
  readonly how: string
  readonly isolation: string | null
}

/** A live reading of the plan, as much of it as the card prints. */
export interface ProbedCheck {
  readonly what: string
  readonly live: boolean
  readonly side: string
  readonly probe: { readonly at: string; readonly reference: string } | null
  readonly ways: readonly ProbedWay[]
  readonly chosen:
    | { readonly state: 'doable' | 'substitute'; readonly way: ProbedWay }
    | { readonly state: 'skipped'; readonly risk: string }
  readonly expected: { readonly high: number | null; readonly typical: number; readonly unit: string } | null
  readonly scope: { readonly probe_V: number } | null
}

/** Live readings between the same two points, taken the same way. */
interface Group {
  readonly at: string
  readonly reference: string
  readonly side: string
  readonly way: ProbedWay
  readonly what: string[]
  most_V: number
}

/** Clip order that holds for every live reading. Common practice, no source. */
const order = [
  'Unplug, discharge C2 through a resistor, read it below 5 V.',
  'Clip the reference first, then the tip; leads away from the drain, short ground spring on a scope probe.',
  'Hands off, plug in, read, unplug.',
  'Discharge and read C2 again; only then the tip comes off, the reference last.',
] as const

/** Readings with their load taken off their names: one line for `Output voltage` at every load. */
const plainName = (what: string): string => what.replace(/,? (?:at |no load|\d+ % load).*$/, '')

function groupsOf(checks: readonly ProbedCheck[]): Group[] {
  const groups = new Map<string, Group>()
  for (const c of checks) {
    if (!c.live || c.probe === null || c.chosen.state === 'skipped') continue
    const { way } = c.chosen
    const key = [c.probe.at, c.probe.reference, way.how].join('|')
    const group = groups.get(key) ?? { ...c.probe, side: c.side, way, what: [], most_V: 0 }
    if (!group.what.includes(plainName(c.what))) group.what.push(plainName(c.what))
    const volts = c.expected?.unit === 'V' ? (c.expected.high ?? c.expected.typical) : 0
    group.most_V = Math.max(group.most_V, volts, c.scope?.probe_V ?? 0)
    groups.set(key, group)
  }
  return [...groups.values()]
}

const tableOf = (groups: readonly Group[]): Block => ({
  kind: 'table',
  caption: '',
  columns: [
    { title: '' },
    { title: 'Read' },
    { title: 'Tip' },
    { title: 'Reference' },
    { title: 'How' },
    { title: 'Stands at least' },
    { title: 'What keeps you apart from mains' },
  ],
  rows: groups.map((g) => [
    tick,
    strong(g.what.join('; ')),
    words(withTestPoint(g.at)),
    words(withTestPoint(g.reference)),
    words(g.way.how),
    words(g.most_V > 0 ? formatQuantity(Math.ceil(g.most_V), 'V') : ''),
    words(g.way.isolation ?? ''),
  ]),
})

/**
 * Probing card: where tip and reference of every live reading go with the instruments at hand, what they must stand,
 * and what keeps the builder apart from mains. No row without a statement of isolation is printed.
 */
export function probingPaper(evaluation: Evaluation, checks: readonly ProbedCheck[]): Paper {
  const groups = groupsOf(checks)
  const secondary = groups.filter((g) => g.side === 'secondary')
  const primary = groups.filter((g) => g.side !== 'secondary')
  return {
    id: 'probing',
    title: 'Probing card',
    subtitle: subtitle(evaluation),
    foot: foot(evaluation),
    blocks: [
      {
        kind: 'caution',
        text: 'No earthed clip on the primary without an isolation transformer; a variac isolates nothing; the earth of an oscilloscope is never cut. One hand, not alone.',
      },
      {
        kind: 'list',
        items: [...order, 'TP: the ring of that name on the printed schematic.'],
        ticked: false,
      },
      { kind: 'heading', text: 'On the primary: live' },
      tableOf(primary),
      { kind: 'heading', text: 'On the output, behind the barrier' },
      tableOf(secondary),
    ],
  }
}
