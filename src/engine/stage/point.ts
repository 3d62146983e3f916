import type { Condition } from '../supply/condition.ts'
import type { Design } from '../supply/design.ts'
import { type Operation, operate } from '../supply/evaluate/operate.ts'
import type { Plant } from '../supply/evaluate/plant.ts'
import { plantOf } from '../supply/evaluate/plant-of.ts'
import { readCondition } from '../supply/evaluate/read-condition.ts'
import { readShort } from '../supply/evaluate/read-short.ts'
import type { Readings } from '../supply/reading.ts'
import type { Corner } from './corner.ts'

/** The closed form at a corner, at one still bulk voltage: what the solved cycle starts from and is compared with. */
export interface Point {
  readonly corner: Corner
  readonly plant: Plant
  readonly bulk_V: number
  readonly operation: Operation
  readonly readings: Readings
}

const known = new WeakMap<Design, Plant>()

const plantFor = (d: Design): Plant => {
  let plant = known.get(d)
  if (!plant) {
    plant = plantOf(d)
    known.set(d, plant)
  }
  return plant
}

/** Nothing has warmed yet. */
const unheated = (p: Plant): Plant => ({
  ...p,
  cooling: 'open',
  switchHeat_K_per_W: 0,
  rectifierHeat_K_per_W: 0,
  transformerSurface_m2: 1,
})

/** The same stage on a rail that holds still at a voltage. */
const onRail = (p: Plant, bulk_V: number): Plant => {
  const rail = { kind: 'dc', voltage_V: bulk_V } as const
  return {
    ...p,
    source: { minimum: rail, nominal: rail, maximum: rail },
    bridgeDrop_V: 0,
    bridgeSlope_ohm: 0,
    thermistor: null,
    fixedInputResistance_ohm: 0,
  }
}

const conditionOf = (corner: Corner, load: number | null): Condition => ({
  id: 'nominal-100',
  label: corner.label,
  input: corner.input,
  load,
  corner: corner.tolerance,
  kind: load === null ? 'overload' : 'steady',
})

/**
 * The closed form at a corner. The bulk voltage at its valley, mean or crest is that of the mains at this load; the
 * stage is then read on a rail that holds still there. Null where the closed form finds no working point.
 */
export function pointAt(d: Design, corner: Corner): Point | null {
  const whole = plantFor(d)
  const plant = corner.warmth === 'cold' ? unheated(whole) : whole
  const shorted = corner.kind === 'short'
  const fed = operate(plant, conditionOf(corner, shorted ? 0 : corner.load))
  if (fed === null) return null
  const { bulk } = fed.input
  const bulk_V = { valley: bulk.minimum_V, mean: bulk.average_V, crest: bulk.maximum_V }[corner.bulk]
  const rail = onRail(plant, bulk_V)
  const condition = conditionOf(corner, shorted ? 0.5 : corner.load)
  const operation = operate(rail, condition)
  if (operation === null) return null
  const read = readCondition(d, rail, condition, operation, null)
  return { corner, plant: rail, bulk_V, operation, readings: shorted ? readShort(rail, read) : read }
}
