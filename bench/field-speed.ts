// Time of the winding models on a usual stack: 60 turn primary, 8 turns of three wires, 9 turn bias.
import { leakage_H, postGap, stackField, stackResistances } from '../src/engine/magnetics/field/index.ts'
import {
  layerFields,
  layOut,
  leakageClosedForm,
  resistanceClosedForm,
} from '../src/engine/magnetics/stack/index.ts'
import { sampleStack } from '../test/support/sample-stack.ts'

const input = sampleStack()
const laid = layOut(input)
if (!laid.ok) throw new Error(laid.errors[0]!.message)
const { layout } = laid
const gaps = postGap(0.3e-3, 0.9)
const frequencies_Hz = Array.from({ length: 20 }, (_, n) => (n + 1) * 1e5)
const shares = { post: 0.9, outerLegs: 0 }
const fields = layerFields(layout, shares)

/** Least, median and 95th percentile of a run, each sample the mean of `inner` calls. */
const measure = (name: string, samples: number, inner: number, run: () => void): void => {
  for (let i = 0; i < Math.max(3, samples / 10) * inner; i++) run()
  const times = Float64Array.from({ length: samples }, () => {
    const start = performance.now()
    for (let i = 0; i < inner; i++) run()
    return ((performance.now() - start) * 1000) / inner
  }).sort()
  const at = (part: number): string => times[Math.floor(part * (samples - 1))]!.toFixed(1).padStart(10)
  console.log(`${name.padEnd(52)}${at(0)} µs least${at(0.5)} µs median${at(0.95)} µs p95`)
}

measure('layout', 200, 500, () => {
  layOut(input)
})
measure('leakage, closed form', 200, 200, () => {
  leakageClosedForm(layout, 'primary', 'secondary')
})
measure('field of the layers, closed form', 200, 100, () => {
  layerFields(layout, shares)
})
measure('resistances at one frequency, closed form', 200, 500, () => {
  resistanceClosedForm(fields, 1e5, 80)
})
measure('layout, leakage, resistances at 4 frequencies', 200, 50, () => {
  const made = layOut(input)
  if (!made.ok) return
  leakageClosedForm(made.layout, 'primary', 'secondary')
  const seen = layerFields(made.layout, shares)
  for (const frequency_Hz of [1e5, 3e5, 8e5, 2e6]) resistanceClosedForm(seen, frequency_Hz, 80)
})
measure('field solution: leakage', 60, 1, () => {
  leakage_H(stackField(layout, gaps), 'primary', 'secondary')
})
measure('field solution: leakage, resistances at 20 harmonics', 60, 1, () => {
  const field = stackField(layout, gaps)
  leakage_H(field, 'primary', 'secondary')
  stackResistances(field, frequencies_Hz, 80)
})
