import type { Check } from '../../../engine/bench/index.ts'
import { instrumentName } from '../../../engine/bench/index.ts'
import type { LogEntry } from '../../../engine/supply/bench-log.ts'
import type { Supply } from '../../../engine/supply/supply.ts'
import { setting } from '../../fields/check.ts'
import { desk, editSupply } from '../../state/desk.ts'
import { firstLightStrings } from '../../strings/first-light.ts'
import { valueWords } from './words.ts'

const words = firstLightStrings

/** The supply as it stands at this moment; a view may still show the one before. */
const now = (id: string): Supply | null => desk.get().supplies[id]?.history.value ?? null

const two = (n: number): string => String(n).padStart(2, '0')

/** Local date and time to the second, ISO 8601. */
const localTime = (d: Date): string =>
  `${d.getFullYear()}-${two(d.getMonth() + 1)}-${two(d.getDate())}T${two(d.getHours())}:${two(d.getMinutes())}:${two(d.getSeconds())}`

/** What the chosen way of a check is read with. */
export const usualInstrument = ({ chosen }: Check): string =>
  chosen.state === 'skipped' ? '' : chosen.way.instruments.map(instrumentName).join(', ')

const withLog = (supply: Supply, log: readonly LogEntry[], label: string, key: string | null = null): void =>
  editSupply(supply.id, { label, key, changes: setting(supply, [[['bench', 'log'], log]]) })

/** Adds one reading to the log of a supply; an answer is kept as its id. */
export function record(
  id: string,
  check: Check,
  reading: { readonly value: number } | { readonly answer: string },
  instrument: string,
): void {
  const supply = now(id)
  if (supply === null) return
  const entry: LogEntry = {
    at: localTime(new Date()),
    step: check.stage,
    check: check.id,
    value: 'value' in reading ? reading.value : null,
    unit: check.expected?.unit ?? '',
    instrument: instrument.slice(0, 120),
    note: 'answer' in reading ? reading.answer : '',
  }
  withLog(supply, [...supply.bench.log, entry], words.check.logged(check.what, valueWords(check, entry)))
}

/** Changes instrument or note of the last reading of a check. */
export function amend(
  id: string,
  check: Check,
  change: Partial<Pick<LogEntry, 'instrument' | 'note'>>,
): void {
  const supply = now(id)
  const at = supply?.bench.log.findLastIndex((e) => e.check === check.id) ?? -1
  if (supply === null || at < 0) return
  withLog(
    supply,
    supply.bench.log.with(at, { ...supply.bench.log[at]!, ...change }),
    words.check.noted(check.what),
    `${id}:log.${at}`,
  )
}

/** Takes one entry out of the log. */
export function removeEntry(id: string, index: number, what: string): void {
  const supply = now(id)
  if (supply === null) return
  withLog(supply, supply.bench.log.toSpliced(index, 1), words.log.removed(what))
}

/** Sets or takes back a tick; `also` ids are taken back with it. */
export function tick(
  id: string,
  tickId: string,
  set: boolean,
  label: string,
  also: readonly string[] = [],
): void {
  const supply = now(id)
  if (supply === null) return
  const rest = supply.bench.ticked.filter((t) => t !== tickId && !also.includes(t))
  editSupply(id, {
    label,
    key: null,
    changes: setting(supply, [[['bench', 'ticked'], set ? [...rest, tickId] : rest]]),
  })
}

export function setOwned(id: string, instrument: string, has: boolean): void {
  const supply = now(id)
  if (supply === null) return
  const rest = supply.bench.instruments.filter((i) => i !== instrument)
  editSupply(id, {
    label: words.bench.owned(instrumentName(instrument as Parameters<typeof instrumentName>[0])),
    key: null,
    changes: setting(supply, [[['bench', 'instruments'], has ? [...rest, instrument] : rest]]),
  })
}
