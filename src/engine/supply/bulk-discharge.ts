import { dischargeTime, storedEnergy } from '../mains/discharge.ts'
import type { Design } from './design.ts'

/**
 * Resistor that a charged bulk capacitor is emptied through: 10 kΩ of 5 W, wirewound and good for 500 V. From the highest
 * bulk it starts at three times its power and falls by half in under a second, which such a resistor stands; a small
 * film resistor is pierced by the voltage. Common practice, no source. `to_V` counts as discharged.
 */
export const dischargeResistor = { resistance_ohm: 10e3, power_W: 5, voltage_V: 500, to_V: 5 } as const

export interface BulkDischarge {
  readonly energy_J: number
  /** Down to `to_V`, with the capacitance at its greatest. */
  readonly time_s: number
}

/** What the bulk capacitor holds at a voltage, and how long that resistor takes to empty it. */
export const bulkDischarge = (
  { bulkCapacitance_F }: Pick<Design, 'bulkCapacitance_F'>,
  from_V: number,
): BulkDischarge => ({
  energy_J: storedEnergy(bulkCapacitance_F.typical, from_V),
  time_s: dischargeTime(
    bulkCapacitance_F.maximum,
    dischargeResistor.resistance_ohm,
    from_V,
    dischargeResistor.to_V,
  ),
})
