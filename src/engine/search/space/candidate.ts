import type { Part, Wire } from '../../parts/part.ts'
import { emptyBench } from '../../supply/bench-log.ts'
import type { Build, TransformerBuild } from '../../supply/build.ts'
import type { Need } from '../../supply/need.ts'
import type { Supply } from '../../supply/supply.ts'
import { type Frame, fixedTransformer, type Ground, sinksOf, snubberOf } from './frames.ts'
import type { Space, StackChoice } from './space.ts'

/** One whole candidate: a frame with its copper. */
export interface Candidate {
  readonly frame: Frame
  readonly stack: StackChoice
  readonly primaryWire: Wire
  readonly secondaryWire: Wire
}

/** Every way to put copper on a frame, in a fixed order. */
export function* copperOf(frame: Frame): Generator<Candidate> {
  for (const stack of frame.stacks)
    for (const primaryWire of stack.primaryWires)
      for (const secondaryWire of stack.secondaryWires) yield { frame, stack, primaryWire, secondaryWire }
}

/** Layers of tape: between the sides, between layers of one winding, and outside. */
export interface Tapes {
  readonly barrier: number
  readonly layer: number
  readonly outer: number
}

const tapes = {
  insulated: { barrier: 1, layer: 1, outer: 2 },
  reinforced: { barrier: 3, layer: 1, outer: 2 },
  basic: { barrier: 2, layer: 1, outer: 2 },
} as const satisfies Record<string, Tapes>

/** Insulated wire is the barrier itself; with margins tape is. */
export const tapesOf = (need: Need, stack: StackChoice): Tapes =>
  stack.insulation === 'triple-insulated' ? tapes.insulated : tapes[need.insulation]

/** What the coil of a candidate is wound by. */
export const transformerOf = (
  space: Space,
  { frame, stack }: Pick<Candidate, 'frame' | 'stack'>,
): TransformerBuild => ({
  ...fixedTransformer(frame.ripple, frame.primary, frame.secondary),
  splitPrimary: stack.splitPrimary,
  insulation: stack.insulation,
  tapeBarrier: tapesOf(space.need, stack).barrier,
})

export function buildOf(space: Space, ground: Ground, c: Candidate): Build {
  const around = space.around[c.frame.around]!
  const sinks = sinksOf(space, c.frame)
  const { core, former, tape } = space.cores[ground.block.core]!
  return {
    places: {
      ...around.places,
      switcher: ground.switcher.id,
      core: core.id,
      material: ground.material.id,
      former: former.id,
      tape,
      primaryWire: c.primaryWire.id,
      secondaryWire: c.secondaryWire.id,
      rectifier: space.rectifiers[c.frame.rectifier]!.id,
      switcherHeatsink: sinks.switcher,
      rectifierHeatsink: sinks.rectifier,
    },
    bulkCount: around.bulkCount,
    outputCount: around.outputCount,
    secondCount: 1,
    transformer: transformerOf(space, c),
    clamp: { style: 'resistor-capacitor', voltage_V: null, resistor_ohm: null, capacitor_F: null },
    snubber: snubberOf(space, c.frame),
    chokeTurns: null,
    chokeInHand: null,
    bleed_ohm: null,
    indicatorResistor_ohm: null,
    feedback: {
      dividerTop_ohm: around.dividerTop_ohm,
      dividerBottom_ohm: around.dividerBottom_ohm,
      ledResistor_ohm: null,
      biasResistor_ohm: null,
      compensationResistor_ohm: null,
      compensationCapacitor_F: null,
      highFrequencyCapacitor_F: null,
      softFinishCapacitor_F: null,
      senseAfterChoke: false,
      ledFeedAfterChoke: false,
    },
  }
}

/** A whole supply from a build: copies of the parts that its places name. */
export function supplyFrom(space: Space, build: Build, name: string): Supply {
  const used = [...new Set(Object.values(build.places).filter((id): id is string => id !== null))]
  return {
    format: 'gapwright-supply',
    version: 1,
    id: 'answer',
    name,
    revision: 'A',
    note: '',
    need: space.need,
    parts: used.map((id): Part => space.parts.get(id)!),
    build,
    bench: emptyBench(),
  }
}
