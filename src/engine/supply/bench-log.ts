import { z } from 'zod'
import { nonNegative, positive, text } from '../parts/fields.ts'

/** A value read at the bench, with what it was read with. */
export const measured = z.strictObject({
  value: nonNegative(1e9),
  instrument: text(120),
  frequency_Hz: positive(1e8).nullable(),
  /** Relative accuracy that the meter's maker states. */
  accuracy: z.number().min(0).max(1).nullable(),
})

/** Resistance across the barrier, with the dc voltage that the tester put across it. */
export const insulationReading = measured.extend({
  value: nonNegative(1e15),
  /** Null where it was not noted; a few volts of a multimeter find gross faults only. */
  test_V: positive(1e4).nullable(),
})

/**
 * What the finished transformer measured; values here replace planned ones everywhere downstream. The readings that may
 * be left out are absent from files written before they were asked for.
 */
export const asBuilt = z.strictObject({
  primaryInductance_H: measured.nullable(),
  /** At the primary with the secondary shorted at its pins and the bias winding open: the current's own path. */
  leakage_H: measured.nullable(),
  primaryResistance_ohm: measured.nullable(),
  secondaryResistance_ohm: measured.nullable(),
  biasResistance_ohm: measured.nullable(),
  secondaryInductance_H: measured.nullable(),
  biasInductance_H: measured.nullable(),
  aidingInductance_H: measured.nullable(),
  opposingInductance_H: measured.nullable(),
  bulkCapacitance_F: measured.nullable(),
  /** Where the current of a voltage pulse on the primary of the cold core rises twice as fast as at its start. */
  saturationCurrent_A: measured.nullable().optional(),
  /** Primary volts over secondary volts, all open, a small sine or square wave on the primary. */
  secondaryVoltsRatio: measured.nullable().optional(),
  /** Primary volts over bias volts. */
  biasVoltsRatio: measured.nullable().optional(),
  /** Primary, bias and core joined, against the secondary. */
  insulation_ohm: insulationReading.nullable().optional(),
})

/** One reading typed at the bench against the step of the power-up plan that asked for it. */
export const logEntry = z.strictObject({
  /** Local date and time, ISO 8601. */
  at: text(40),
  step: text(80),
  check: text(80),
  value: z.number().nullable(),
  unit: text(20),
  instrument: text(120),
  note: text(2000),
})

export const bench = z.strictObject({
  /** Names from the list of instruments that the power-up plan knows. */
  instruments: z.array(text(60)).max(50),
  ticked: z.array(text(80)).max(1000),
  log: z.array(logEntry).max(10000),
  asBuilt,
})

export type Measured = z.infer<typeof measured>
export type InsulationReading = z.infer<typeof insulationReading>
export type AsBuilt = z.infer<typeof asBuilt>
export type AsBuiltField = keyof AsBuilt
export type LogEntry = z.infer<typeof logEntry>
export type Bench = z.infer<typeof bench>

export const emptyBench = (): Bench => ({
  instruments: ['multimeter', 'lamp'],
  ticked: [],
  log: [],
  asBuilt: {
    primaryInductance_H: null,
    leakage_H: null,
    primaryResistance_ohm: null,
    secondaryResistance_ohm: null,
    biasResistance_ohm: null,
    secondaryInductance_H: null,
    biasInductance_H: null,
    aidingInductance_H: null,
    opposingInductance_H: null,
    bulkCapacitance_F: null,
  },
})
