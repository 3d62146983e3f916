import type { InstrumentId } from '../instruments.ts'
import type { CheckSpec, NumberSpec, PlanFacts } from './spec.ts'
import type { Check, Chosen, Expected, Way } from './types.ts'

/** Air temperature from which the rise of a healthy part is counted. */
const ambient = ({ evaluation }: PlanFacts): number => evaluation.design.need.ambient_C

/** The first way for which everything is owned; else what is risked and what it would take. */
function chooseWay(ways: readonly Way[], owned: ReadonlySet<InstrumentId>, risk: string): Chosen {
  const way =
    ways.find((w) => !w.substitute && w.instruments.every((i) => owned.has(i))) ??
    ways.find((w) => w.instruments.every((i) => owned.has(i)))
  if (way) return { state: way.substitute ? 'substitute' : 'doable', way }
  const missing = (w: Way): InstrumentId[] => w.instruments.filter((i) => !owned.has(i))
  const easiest = [...ways].sort((a, b) => missing(a).length - missing(b).length)[0]
  const wouldNeed = easiest ? missing(easiest) : []
  return {
    state: 'skipped',
    risk,
    wouldNeed,
  }
}

/**
 * Band of a healthy reading: two standard deviations either way, as a factor, and half of what the instrument just
 * tells apart; it reaches neither through zero nor past the stop. Temperatures: a quarter of the rise and 4 K.
 */
function bandOf(spec: NumberSpec, typical: number, facts: PlanFacts): Expected {
  const width = 2 * spec.spread(facts)
  const size = Math.abs(typical)
  const up =
    spec.unit === 'C' ? 0.25 * Math.max(0, typical - ambient(facts)) + 4 : width * size + 0.5 * spec.floor
  const down = spec.unit === 'C' ? up : size - size / (1 + width) + 0.5 * spec.floor
  const least = spec.unit !== 'C' && typical >= 0 ? Math.max(0, typical - down) : typical - down
  const stop = spec.stop?.(facts) ?? null
  // A transformer that was measured off its plan is read against its own values.
  const planned = spec.planned?.(facts.evaluation.design) ?? null
  if (planned !== null && planned.low <= typical && typical <= planned.high)
    return { ...planned, unit: spec.unit, why: spec.why }
  const low =
    spec.oneSided === 'at most'
      ? null
      : spec.oneSided === 'at least' && stop?.below !== null && stop?.below !== undefined && stop.below > 1e6
        ? stop.below
        : least
  // What lies past the point at which to switch off is no healthy reading, wide as the band may be.
  const inside = (end: number | null, limit: number | null | undefined, side: 1 | -1): number | null =>
    end === null || limit === null || limit === undefined || side * (typical - limit) >= 0
      ? end
      : side * Math.min(side * end, side * limit)
  return {
    low: inside(low, stop?.below, -1),
    typical,
    high: inside(spec.oneSided === 'at least' ? null : typical + up, stop?.above, 1),
    unit: spec.unit,
    why: spec.why,
  }
}

/** Where the probe goes on this supply; null where nothing is probed. */
function probeOf({ at, reference }: CheckSpec, { evaluation }: PlanFacts): Check['probe'] {
  const point = (of: NonNullable<typeof at>): string => (typeof of === 'string' ? of : of(evaluation.design))
  return at === null ? null : { at: point(at), reference: point(reference ?? 'primary return') }
}

/** One check of the plan from what a healthy unit reads; null where there is nothing to read. */
export function makeCheck(spec: CheckSpec, facts: PlanFacts, owned: ReadonlySet<InstrumentId>): Check | null {
  const read = facts.healthy[spec.id]
  if (read === null || read === undefined || !spec.applies(facts)) return null
  const expected = spec.kind === 'number' && typeof read === 'number' ? bandOf(spec, read, facts) : null
  const expectedAnswer = spec.kind === 'state' && typeof read === 'string' ? read : null
  if (expected === null && expectedAnswer === null) return null
  return {
    id: spec.id,
    stage: spec.stage,
    what: spec.what,
    spot: spec.spot,
    side: spec.side,
    live: spec.live,
    probe: probeOf(spec, facts),
    ways: spec.ways,
    chosen: chooseWay(spec.ways, owned, spec.risk),
    expected,
    state:
      spec.kind === 'state' && expectedAnswer !== null
        ? {
            expect: expectedAnswer,
            answers: Object.entries(spec.answers)
              .map(([id, label]) => ({ id, label }))
              .sort((a, b) => Number(b.id === expectedAnswer) - Number(a.id === expectedAnswer)),
          }
        : null,
    scope: spec.scope?.(facts) ?? null,
    stop: spec.stop?.(facts) ?? null,
    suspectLow: spec.low,
    suspectHigh: spec.high,
    asBuilt: spec.asBuilt,
  }
}
