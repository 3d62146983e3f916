import { formatQuantity } from '../../quantity/index.ts'
import type { AsBuilt, Measured } from '../../supply/bench-log.ts'
import type { Design } from '../../supply/design.ts'
import {
  type DrivenWinding,
  drivenWindings,
  leakageShare,
  turnsOf,
  usualRatioAccuracy,
  voltsRatioBand,
} from '../../supply/transformer/volts-ratio.ts'
import type { Finding, Fix } from './finding.ts'

/** A ratio read on one winding, and the turns ratios that it leaves open. */
interface Read {
  readonly winding: DrivenWinding
  readonly planned: number
  readonly ratio: number
  readonly low: number
  readonly typical: number
  readonly high: number
}

const fits = (read: Read, primary: number, turns: number): boolean =>
  primary / turns >= read.low && primary / turns <= read.high

/** `about ` where a turn more or less would fit as well. */
const about = (turns: number, also: (turns: number) => boolean): string =>
  [turns - 1, turns + 1].some((near) => near > 0 && also(near)) ? 'about ' : ''

const turnsWords = (count: number): string => (count === 1 ? '1 turn' : `${count} turns`)
const missing = (found: number, planned: number): string =>
  found > planned ? `${turnsWords(found - planned)} too many` : `${turnsWords(planned - found)} missing`

const readAgain: Fix = {
  effort: 'minutes',
  what: 'read both voltages again at the pins with one meter, all else open, at another frequency',
}

/**
 * Turns by volts: a wave on the primary, volts on the open windings. Each ratio leaves a range of turns ratios open (the
 * meter, and up to the leakage's share between open windings); whole turns within it are what may have been wound. Where
 * both windings are off alike, one miscount of the primary explains both, and is named rather than two.
 */
export function readRatios(d: Design, b: AsBuilt): Finding[] {
  const t = d.transformer
  const share = leakageShare(t.leakage_H.typical, t.primaryInductance_H.typical)
  const reads = drivenWindings.flatMap((winding): Read[] => {
    const m: Measured | null = b[`${winding}VoltsRatio`] ?? null
    if (m === null || m.value <= 0) return []
    const accuracy = m.accuracy ?? usualRatioAccuracy
    return [
      {
        winding,
        planned: turnsOf(t, winding),
        ratio: m.value,
        low: m.value / (1 + accuracy) / (1 + share),
        typical: m.value / (1 + share / 2),
        high: m.value / (1 - Math.min(0.9, accuracy)),
      },
    ]
  })
  const off = reads.filter((read) => !fits(read, t.primaryTurns, read.planned))
  const primary = off.length > 0 && off.length === reads.length ? primaryOf(reads, t.primaryTurns) : null
  if (primary !== null && reads.length > 1) {
    const roughly = about(primary, (turns) => reads.every((read) => fits(read, turns, read.planned)))
    return [
      {
        field: 'secondaryVoltsRatio',
        level: 2,
        message: `both volts ratios are off alike: as of ${roughly}${primary} primary turns where ${t.primaryTurns} are planned, ${roughly}${missing(primary, t.primaryTurns)}`,
        fixes: remedies('primary', primary, t.primaryTurns),
      },
    ]
  }
  return reads.map((read) => (off.includes(read) ? miscount(d, read, primary) : asPlanned(d, read)))
}

/** Whole primary turns that explain every ratio with the other windings as planned; null where none do. */
function primaryOf(reads: readonly Read[], planned: number): number | null {
  const guess = reads.reduce((sum, read) => sum + (read.typical * read.planned) / reads.length, 0)
  const turns = Math.max(1, Math.round(guess))
  return turns !== planned && reads.every((read) => fits(read, turns, read.planned)) ? turns : null
}

const remedies = (winding: DrivenWinding | 'primary', found: number, planned: number): Fix[] => [
  readAgain,
  {
    effort: 'minutes',
    what: `enter ${found} ${winding} turns in the build and see what still holds`,
  },
  { effort: 'rewind', what: `wind ${planned} ${winding} turns, with the tally` },
]

function miscount(d: Design, read: Read, primary: number | null): Finding {
  const t = d.transformer
  const field = `${read.winding}VoltsRatio` as const
  const found = Math.max(1, Math.round(t.primaryTurns / read.typical))
  const shown = `primary over ${read.winding} volts is ${read.ratio.toPrecision(3)} where ${voltsRatioBand(t, read.winding, leakageShare(t.leakage_H.typical, t.primaryInductance_H.typical)).typical.toPrecision(3)} is expected`
  if (found === read.planned || !fits(read, t.primaryTurns, found))
    return {
      field,
      level: 2,
      message: `${shown}, and no whole number of ${read.winding} turns fits: a half turn, a shorted turn, or a meter that loads the winding`,
      fixes: [readAgain, { effort: 'rewind', what: `wind the ${read.winding} again with the tally` }],
    }
  const roughly = about(found, (turns) => fits(read, t.primaryTurns, turns))
  const or =
    primary === null ? '' : `, or about ${primary} primary turns; the other winding's volts tell which`
  return {
    field,
    level: 2,
    message: `${shown}: as of ${roughly}${turnsWords(found)} where ${read.planned} are planned, ${roughly}${missing(found, read.planned)}${or}; ${effect(d, read, found)}`,
    fixes: remedies(read.winding, found, read.planned),
  }
}

/** What the miscount does to the voltage that the winding sets. */
function effect(d: Design, read: Read, found: number): string {
  const { reflectedVoltage_V, secondaryTurns, biasTurns } = d.transformer
  if (read.winding === 'secondary')
    return `the reflected voltage is then ${formatQuantity((reflectedVoltage_V * secondaryTurns) / found, 'V')}, not ${formatQuantity(reflectedVoltage_V, 'V')}`
  return `the bias supply is then about ${formatQuantity((d.biasVoltage_V * found) / biasTurns, 'V')}, not ${formatQuantity(d.biasVoltage_V, 'V')}`
}

function asPlanned(d: Design, read: Read): Finding {
  const { primaryTurns } = d.transformer
  const blind = [-1, 1].some((one) => read.planned + one > 0 && fits(read, primaryTurns, read.planned + one))
  return {
    field: `${read.winding}VoltsRatio`,
    level: 0,
    message: `the volts say ${turnsWords(read.planned)} of ${read.winding} to ${primaryTurns} of primary, as planned${blind ? '; one turn more or less would not show with this meter' : ''}`,
    fixes: [],
  }
}
