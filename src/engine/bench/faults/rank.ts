import { logLikelihood } from './likelihood.ts'
import { healthyId } from './table.ts'
import type { FaultRow, FaultTable, Symptom } from './types.ts'

/** A reading that speaks for or against a fault, in decibans of evidence against the healthy supply. */
export interface Evidence {
  readonly check: string
  /** Positive speaks for the fault; 10 is ten to one. */
  readonly decibans: number
}

export interface Ranked {
  readonly row: FaultRow
  /** Chance among all rows of the table, 0 to 1. */
  readonly chance: number
  /** Strongest first. */
  readonly evidence: readonly Evidence[]
}

export interface Ranking {
  /** Likeliest first; the healthy supply is one of them. */
  readonly ranked: readonly Ranked[]
  /** `healthy`: no fault stands out against it. `not enough`: several are about as likely. */
  readonly verdict: 'healthy' | 'found' | 'not enough'
  /** Those that cannot be ruled out yet: within ten to one of the first. */
  readonly leaders: readonly Ranked[]
  readonly text: string
}

/** Chance above which one row counts as found, and how far ahead of the next. */
const enough = { chance: 0.6, lead: 4 } as const

/**
 * Ranks faults by Bayes' rule: chance ~ weight times the likelihood of every reading, readings taken as independent
 * given the fault. Readings of checks that the table does not know are left out. A typed-in number has 5 % of noise, and
 * one in a hundred is taken as a blunder.
 */
export function rank(symptoms: readonly Symptom[], table: FaultTable): Ranking {
  const healthy = table.rows.find((row) => row.id === healthyId)
  const known = symptoms.filter((s) => table.rows.some((row) => s.check in row.signature))
  const scored = table.rows.map((row) => {
    const parts = known.map((s) => logLikelihood(s.check, row.signature[s.check], s.value))
    return { row, parts, log: Math.log(row.weight) + parts.reduce((a, b) => a + b, 0) }
  })
  const best = Math.max(...scored.map((s) => s.log))
  const total = scored.reduce((sum, s) => sum + Math.exp(s.log - best), 0)
  const well = scored.find((s) => s.row === healthy)
  const ranked = scored
    .map(
      ({ row, parts, log }): Ranked => ({
        row,
        chance: Math.exp(log - best) / total,
        evidence: known
          .map((s, k) => ({
            check: s.check,
            decibans: (10 * (parts[k]! - (well?.parts[k] ?? parts[k]!))) / Math.LN10,
          }))
          .filter((e) => Math.abs(e.decibans) > 1)
          .sort((a, b) => Math.abs(b.decibans) - Math.abs(a.decibans)),
      }),
    )
    .sort((a, b) => b.chance - a.chance)
  const first = ranked[0]!
  const second = ranked[1]
  const leaders = ranked.filter((r) => r.chance > 0.1 * first.chance).slice(0, 6)
  const clear = first.chance >= enough.chance && first.chance >= enough.lead * (second?.chance ?? 0)
  const verdict =
    known.length === 0
      ? 'not enough'
      : first.row.id === healthyId
        ? 'healthy'
        : clear
          ? 'found'
          : 'not enough'
  return { ranked, verdict, leaders, text: sentence(verdict, known.length, leaders) }
}

function sentence(verdict: Ranking['verdict'], readings: number, leaders: readonly Ranked[]): string {
  const [first] = leaders
  if (readings === 0 || first === undefined) return 'Nothing to go by yet: type a reading.'
  if (verdict === 'healthy')
    return `Nothing stands out in ${readings === 1 ? 'this reading' : `these ${readings} readings`}; that does not prove what was not read.`
  if (verdict === 'found')
    return `${first.row.title}: ${Math.round(100 * first.chance)} % of what fits these readings.`
  return `Not enough to tell: ${leaders.length} causes fit about as well. Take the next measurement.`
}
