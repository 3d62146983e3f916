// The transformer view: figures of a moved winding at once, and the field that follows, warm, on one core.
import { demoSupplies } from '../src/engine/demo/index.ts'
import { assess } from '../src/engine/limits/index.ts'
import { gapLoss } from '../src/engine/magnetics/field/index.ts'
import { conditionById } from '../src/engine/supply/condition.ts'
import { resolve } from '../src/engine/supply/evaluate.ts'
import {
  momentMaps,
  moveItem,
  solveTransformer,
  wallGaps,
  waveHarmonics,
} from '../src/engine/supply/transformer/index.ts'

const median = (work: () => unknown, times = 15): number => {
  for (let i = 0; i < 3; i++) work()
  const spent = Array.from({ length: times }, () => {
    const start = performance.now()
    work()
    return performance.now() - start
  }).sort((a, b) => a - b)
  return spent[times >> 1]!
}

const full = conditionById.get('nominal-100')!
for (const supply of demoSupplies()) {
  const design = resolve(supply)
  if (!design.ok) throw new Error(design.problems[0]?.message)
  const { stack, coil } = design.value.transformer
  const moved = [...moveItem(stack, 0, 1, supply.build.transformer)]
  const solved = solveTransformer(design.value, full)
  if (!solved.ok) throw new Error(solved.problems[0]?.message)
  const { field, answer } = solved.value
  const rows = {
    'moved winding, every figure by closed form': median(() =>
      assess({
        ...supply,
        build: { ...supply.build, transformer: { ...supply.build.transformer, stack: moved } },
      }),
    ),
    'field: leakage, coupling, 20 harmonics, loss by layer': median(() =>
      solveTransformer(design.value, full),
    ),
    'three maps of 44 by 64': median(() => momentMaps(field, answer.currents, 44, 64)),
    'gap loss against spread gaps': median(() =>
      gapLoss(
        coil.layout,
        wallGaps(design.value),
        waveHarmonics(answer.currents, coil.layout.windings),
        answer.currents.frequency_Hz,
        answer.temperature_C.field,
      ),
    ),
  }
  console.log(supply.name)
  for (const [name, ms] of Object.entries(rows)) console.log(`  ${name.padEnd(56)} ${ms.toFixed(1)} ms`)
}
