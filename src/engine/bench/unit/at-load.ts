import type { Condition } from '../../supply/condition.ts'
import type { Design } from '../../supply/design.ts'
import { type Operation, operate } from '../../supply/evaluate/operate.ts'
import type { Plant } from '../../supply/evaluate/plant.ts'
import { plantOf } from '../../supply/evaluate/plant-of.ts'
import { readCondition } from '../../supply/evaluate/read-condition.ts'
import type { Readings } from '../../supply/reading.ts'

/** One supply at one input and any load, typical values throughout. */
export interface AtLoad {
  readonly operation: Operation
  readonly readings: Readings
}

/** Reads a supply at loads of one's own choosing; its plant is worked out once. */
export interface Bench {
  readonly plant: Plant
  /** Null where the supply does not run. */
  readonly at: (input: Condition['input'], load: number) => AtLoad | null
}

/** A supply laid out for readings at any load. */
export function benchOf(design: Design): Bench {
  const plant = plantOf(design)
  const ceilings = new Map<string, number>()
  const read = (input: Condition['input'], load: number, ceiling_W: number | null): AtLoad | null => {
    const condition: Condition = {
      id: `${input}-100`,
      label: `${Math.round(load * 100)} % load`,
      input,
      load,
      corner: 'typical',
      kind: 'steady',
    }
    const operation = operate(plant, condition)
    if (operation === null) return null
    const full = ceiling_W === null ? null : { powerCeiling_W: ceiling_W }
    return { operation, readings: readCondition(design, plant, condition, operation, full) }
  }
  return {
    plant,
    at: (input, load) => {
      let ceiling_W = ceilings.get(input)
      if (ceiling_W === undefined) {
        ceiling_W = read(input, 1, null)?.readings.powerCeiling_W ?? 0
        ceilings.set(input, ceiling_W)
      }
      return read(input, load, ceiling_W)
    },
  }
}
