/**
 * What instruments show on one unit, by check id: a number in SI units, the id of an answer, or null where this unit
 * cannot be brought to where the reading is taken.
 */
export type Readings = Readonly<Record<string, number | string | null>>
