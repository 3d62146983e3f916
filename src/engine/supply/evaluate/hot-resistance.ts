import { hotThermistor, type Thermistor } from '../../mains/thermistor.ts'

/** Currents at which a thermistor is solved: 16 from 10 mA to 10 A, even on a logarithmic scale. */
const count = 16
const lowest_A = 0.01
const perStep = Math.log(1000) / (count - 1)

interface Table {
  readonly ambient_C: number
  readonly logResistance: readonly number[]
}

const known = new WeakMap<Thermistor, Table>()

/** Resistance of a self-heated thermistor at a steady rms current, between solved points on logarithms, ohm. */
export function hotResistance_ohm(part: Thermistor, ambient_C: number, current_Arms: number): number {
  let table = known.get(part)
  if (table?.ambient_C !== ambient_C) {
    table = {
      ambient_C,
      logResistance: Array.from({ length: count }, (_, i) =>
        Math.log(hotThermistor(part, lowest_A * Math.exp(perStep * i), ambient_C).resistance_ohm),
      ),
    }
    known.set(part, table)
  }
  const at = Math.min(count - 1.001, Math.max(0, Math.log(Math.max(1e-6, current_Arms) / lowest_A) / perStep))
  const i = Math.floor(at)
  const a = table.logResistance[i]!
  return Math.exp(a + (at - i) * (table.logResistance[i + 1]! - a))
}
