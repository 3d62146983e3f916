import type { LampModel } from '../../mains/lamp.ts'
import { benchOf } from './at-load.ts'
import { coldReadings } from './cold-readings.ts'
import { lowEnergyReadings } from './low-energy-readings.ts'
import type { Readings } from './readings.ts'
import { type RunCache, runningReadings } from './running-readings.ts'
import { transformerReadings } from './transformer-readings.ts'
import type { Unit } from './unit.ts'

/** Answers that a healthy unit gives to what is seen and heard and no model computes. */
export const seenAndHeard: Readings = {
  'cold.discharged': 0,
  'cold.looks': 'good',
  'lamp.warm': 'nothing',
  'line.sound': 'none',
  'line.probe': 'same',
  'line.hand': 'same',
  'line.preload': 'same',
  'line.fuse': 'holds',
  'line.restart': 'none',
  'line.slow-output': 'steady',
  'line.current-start': 'small',
  'line.clamp-swap': 'same',
  'line.capacitor-swap': 'same',
  'line.start-unloaded': 'runs',
  'line-100.ringing': 'fades',
  'line-100.rectifier-ring': 'small',
  'soak.output-drift': 'steady',
  'transformer.each-shorted': 'alike',
}

/**
 * Everything that instruments would read on a unit, at every stage. `planned_V` is the output voltage that the builder
 * believes in; the unit's own divider may set another.
 */
export function measure(unit: Unit, planned_V: number, lamp: LampModel, cache: RunCache): Readings {
  const bench = benchOf(unit.design)
  return {
    ...seenAndHeard,
    ...transformerReadings(unit),
    ...coldReadings(unit),
    ...lowEnergyReadings(unit, planned_V),
    ...runningReadings(unit, bench, lamp, cache),
  }
}
