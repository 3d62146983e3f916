// Power-up plan and fault table of the reference supply: time of each, and how often the finder is right.
import { faultTable, powerUpPlan, rank, type Symptom } from '../src/engine/bench/index.ts'
import { everything, judged, lamps, normal, seeded } from '../test/reference/bench/supplies.ts'

const { evaluation } = judged()
const timed = <T>(name: string, work: () => T): T => {
  work()
  const start = performance.now()
  const value = work()
  console.log(`${name.padEnd(44)} ${(performance.now() - start).toFixed(0).padStart(6)} ms`)
  return value
}

const plan = timed('power-up plan', () => powerUpPlan(evaluation, everything, lamps))
const table = timed('fault table', () => faultTable(evaluation, plan.lamp))

const uniform = seeded(11)
let first = 0
let three = 0
const trials = 20
for (const row of table.rows)
  for (let k = 0; k < trials; k++) {
    const seen = Object.entries(row.signature).map(([check, trace]): Symptom => {
      if (trace.kind === 'number') return { check, value: trace.value * (1 + 0.05 * normal(uniform)) }
      return { check, value: Object.entries(trace.chances).sort((a, b) => b[1] - a[1])[0]![0] }
    })
    const place = rank(seen, table).ranked.findIndex((r) => r.row.id === row.id)
    if (place === 0) first++
    if (place < 3) three++
  }
const all = table.rows.length * trials
console.log(
  `${table.rows.length} rows: first ${((100 * first) / all).toFixed(1)} %, in three ${((100 * three) / all).toFixed(1)} %`,
)
for (const basis of ['simulated', 'mixed', 'knowledge'] as const)
  console.log(`${basis}: ${table.rows.filter((r) => r.basis === basis).length}`)
