// Live editing: one whole closed-form assessment (choices, every condition, limits) of the reference supply, warm, on one core.
import { assess, limits } from '../src/engine/limits/index.ts'
import { starterDrawer } from '../src/engine/parts/starter/index.ts'
import { proposeSupply } from '../src/engine/search/propose.ts'
import { conditions } from '../src/engine/supply/condition.ts'
import { evaluate, resolve } from '../src/engine/supply/evaluate.ts'
import { need, r1 } from '../test/reference/r1/r1.ts'

/** Middle of many batches, each long against the clock's step: other work on the machine lifts the mean, not this. */
function microseconds(
  work: (i: number) => unknown,
  batches = 60,
  size = 200,
): { median: number; least: number } {
  for (let i = 0; i < (size > 1 ? 3000 : 1); i++) work(i)
  const times = Array.from({ length: batches }, () => {
    const start = performance.now()
    for (let i = 0; i < size; i++) work(i)
    return ((performance.now() - start) / size) * 1000
  }).sort((a, b) => a - b)
  return { median: times[batches >> 1]!, least: times[0]! }
}

// The load steps from edit to edit, so that nothing can be remembered from the call before.
const edits = Array.from({ length: 64 }, (_, i) => r1({ need: { output_A: 1 + i / 64 } }))
const designs = edits.map((supply) => {
  const design = resolve(supply)
  if (!design.ok) throw new Error(design.problems[0]?.message)
  return design.value
})
const evaluations = designs.map((design) => evaluate(design))
const rows = {
  'settle open choices': microseconds((i) => resolve(edits[i & 63]!)),
  [`read ${conditions.length} conditions`]: microseconds((i) => evaluate(designs[i & 63]!)),
  'rank limits': microseconds((i) => limits(evaluations[i & 63]!)),
  'whole assessment': microseconds((i) => assess(edits[i & 63]!)),
  'propose from the starter drawer': microseconds(() => proposeSupply(need, starterDrawer), 5, 1),
}
for (const [name, { median, least }] of Object.entries(rows))
  console.log(
    `${name.padEnd(34)} ${median.toFixed(1).padStart(9)} µs median ${least.toFixed(1).padStart(9)} µs least`,
  )
console.log(`wanted: whole assessment below 200 µs`)
