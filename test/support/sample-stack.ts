import { recommendStack, type StackInput } from '../../src/engine/magnetics/stack/index.ts'
import { enamelledOverall_m } from '../../src/engine/magnetics/wire/index.ts'
import type { Wire } from '../../src/engine/parts/part.ts'

export const enamelled = (bare_mm: number): Wire => ({
  id: 'wire',
  name: 'enamelled wire',
  kind: 'wire',
  construction: 'enamelled',
  temperature_C: 155,
  bare_m: bare_mm / 1000,
  grade: 2,
  overall_m: enamelledOverall_m(bare_mm / 1000, 2),
})

/** A 60 : 8 : 9 turn transformer on an E25-like core, for tests and benchmarks. */
export const sampleStack = (
  change: Partial<StackInput> & { readonly splitPrimary?: boolean } = {},
): StackInput => {
  const { splitPrimary = false, ...rest } = change
  return {
    stack: recommendStack({
      primary: { name: 'primary', turns: 60, pins: [1, 2] },
      secondary: { name: 'secondary', turns: 8, pins: [10, 9] },
      bias: { name: 'bias', turns: 9, pins: [4, 5] },
      splitPrimary,
      splitPin: 3,
      biasPlace: 'after',
      barrierTapeLayers: 3,
      outerTapeLayers: 2,
    }),
    wires: {
      primary: { wire: enamelled(0.315), inHand: 1 },
      secondary: { wire: enamelled(0.5), inHand: 3 },
      bias: { wire: enamelled(0.2), inHand: 1 },
    },
    tape_m: 60e-6,
    former: {
      width_m: 15.4e-3,
      height_m: 4.5e-3,
      barrel: { section: 'rectangular', width_m: 9.2e-3, depth_m: 9.2e-3 },
      wall_m: 0.8e-3,
      flange_m: 0.8e-3,
    },
    core: {
      height_m: 17.4e-3,
      width_m: 5.4e-3,
      post: { section: 'rectangular', width_m: 7.4e-3, depth_m: 7.4e-3 },
      coveredFraction: 0.5,
    },
    margin_m: 0,
    tapeLayersInside: 1,
    tail_m: 0.08,
    ...rest,
  }
}
