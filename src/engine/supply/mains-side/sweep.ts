import type { BulkReading, BulkSource } from '../../mains/bulk.ts'
import { conditionById } from '../condition.ts'
import type { Design } from '../design.ts'
import { dropOutBulk_V } from '../evaluate/drop-out.ts'
import { type Operation, operate } from '../evaluate/operate.ts'
import type { Plant } from '../evaluate/plant.ts'
import { plantOf } from '../evaluate/plant-of.ts'

/** The mains side at one input voltage, full load, typical parts. */
export interface SweepPoint {
  /** rms of the mains, or the DC input. */
  readonly input_V: number
  readonly bulk: BulkReading
  /** Bulk voltage below which the stage cannot hold this power. */
  readonly dropOut_V: number
  readonly stage_W: number
}

export interface MainsSweep {
  readonly points: readonly SweepPoint[]
  /** Input at which full load just holds, falling from the lowest input; null where it does not even hold there. */
  readonly brownOut_V: number | null
}

const full = conditionById.get('nominal-100')!

const withVoltage = (source: BulkSource, volts: number): BulkSource =>
  source.kind === 'mains' ? { ...source, voltage_Vrms: volts } : { ...source, voltage_V: volts }

/** Full load at any input voltage; null where it does not run. */
export function atInput(plant: Plant, input_V: number): Operation | null {
  return operate(
    { ...plant, source: { ...plant.source, nominal: withVoltage(plant.source.nominal, input_V) } },
    full,
  )
}

const dropOutOf = (plant: Plant, there: Operation): number =>
  dropOutBulk_V(
    there.reflected_V,
    there.inductance_H,
    plant.frequency_Hz.typical,
    plant.currentLimit_A.typical,
    plant.maximumDuty.typical,
    there.stage_W,
    plant.slope_A_per_s,
  )

const holds = (plant: Plant, input_V: number): boolean => {
  const there = atInput(plant, input_V)
  return there !== null && there.input.bulk.minimum_V >= dropOutOf(plant, there)
}

/** Deepest brown-out looked for, as a part of the lowest input. */
const deepest = 0.3

/**
 * Bulk voltage at full load from where it browns out to the highest input. Brown-out: the input at which the valley meets the
 * voltage that the stage needs for this power, by bisection.
 */
export function sweepMains(design: Design, count = 25): MainsSweep {
  const plant = plantOf(design)
  const { source } = design.need
  const [low, high] =
    source.kind === 'mains'
      ? [source.minimum_Vrms, source.maximum_Vrms]
      : [source.minimum_V, source.maximum_V]
  const brownOut_V = brownOut(plant, low)
  const from_V = brownOut_V ?? low
  const points: SweepPoint[] = []
  for (let k = 0; k < count; k++) {
    const input_V = from_V + ((high - from_V) * k) / (count - 1)
    const there = atInput(plant, input_V)
    if (there === null) continue
    points.push({
      input_V,
      bulk: there.input.bulk,
      dropOut_V: dropOutOf(plant, there),
      stage_W: there.stage_W,
    })
  }
  return { points, brownOut_V }
}

function brownOut(plant: Plant, lowest_V: number): number | null {
  if (!holds(plant, lowest_V)) return null
  let below = deepest * lowest_V
  let above = lowest_V
  for (let k = 0; k < 10; k++) {
    const middle = 0.5 * (below + above)
    if (holds(plant, middle)) above = middle
    else below = middle
  }
  return above
}
