import { fixedReadings } from './readings/fixed.ts'
import type { ReadingInfo } from './readings/info.ts'
import { mainsReadings } from './readings/mains.ts'
import { outputReadings } from './readings/output.ts'
import { stageReadings } from './readings/stage.ts'
import { transformerReadings } from './readings/transformer.ts'

export type { ReadingInfo } from './readings/info.ts'

/** Every reading that depends on the condition, in the order mains, stage, transformer, output. */
export const readingInfo = { ...mainsReadings, ...stageReadings, ...transformerReadings, ...outputReadings }

/** Every reading that is the same at all conditions. */
export const fixedReadingInfo = fixedReadings

export type ReadingKey = keyof typeof readingInfo
export type FixedReadingKey = keyof typeof fixedReadingInfo

/** Readings at one condition. A place that is empty reads 0. */
export type Readings = Readonly<Record<ReadingKey, number>>
/** Readings that hold at every condition. */
export type FixedReadings = Readonly<Record<FixedReadingKey, number>>

export const readingKeys = Object.keys(readingInfo) as ReadingKey[]
export const fixedReadingKeys = Object.keys(fixedReadingInfo) as FixedReadingKey[]

/** Label, unit, place and explanation of a reading. */
export const infoOf = (key: ReadingKey | FixedReadingKey): ReadingInfo =>
  key in readingInfo ? readingInfo[key as ReadingKey] : fixedReadingInfo[key as FixedReadingKey]
