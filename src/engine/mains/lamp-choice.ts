import { requireBetween } from '../quantity/require.ts'
import { type BulkCircuit, type BulkReading, solveBulk } from './bulk.ts'
import { type LampModel, lampAlone, lampResistance } from './lamp.ts'

export interface LampSteady {
  readonly bulk: BulkReading
  readonly filament_K: number
  readonly lamp_W: number
  readonly lamp_ohm: number
}

/**
 * Steady state of a supply behind a series lamp: the lowest filament temperature at which the lamp's heating by the
 * solved line current equals what it radiates. Null when the bulk voltage collapses on the way, which is the lamp
 * taking over.
 */
export function lampSteady(lamp: LampModel, circuit: BulkCircuit): LampSteady | null {
  const room4 = lamp.room_K ** 4
  const span = lamp.hot_K ** 4 - room4
  const read = (t: number): { excess: number; bulk: BulkReading; ohm: number } | null => {
    const ohm = lampResistance(lamp, t)
    const bulk = solveBulk({ ...circuit, seriesResistance_ohm: circuit.seriesResistance_ohm + ohm })
    if (!bulk.ok) return null
    const heat = bulk.input_Arms ** 2 * ohm
    return { excess: heat - (lamp.power_W * (t ** 4 - room4)) / span, bulk, ohm }
  }
  let low = lamp.room_K
  let high = low
  for (;;) {
    high += 40
    const r = read(high)
    if (r === null || high > 3400) return null
    if (r.excess <= 0) break
    low = high
  }
  for (let k = 0; k < 30; k++) {
    const middle = 0.5 * (low + high)
    const r = read(middle)
    if (r !== null && r.excess > 0) low = middle
    else high = middle
  }
  const r = read(high)
  if (r === null) return null
  return { bulk: r.bulk, filament_K: high, lamp_W: r.bulk.input_Arms ** 2 * r.ohm, lamp_ohm: r.ohm }
}

/**
 * Greatest power from the bulk capacitor at which its valley stays above a voltage behind the lamp: above it the lamp
 * takes over and the supply folds. Zero when even a hundredth of `most_W` is too much.
 */
export function lampTakesOver(
  lamp: LampModel,
  circuit: BulkCircuit,
  lowest_V: number,
  most_W: number,
): number {
  requireBetween('lowest_V', lowest_V, 1, 1000, 'V')
  requireBetween('most_W', most_W, 0.01, 1e4, 'W')
  const holds = (power_W: number): boolean => {
    const s = lampSteady(lamp, { ...circuit, power_W })
    return s !== null && s.bulk.minimum_V >= lowest_V
  }
  if (holds(most_W)) return most_W
  let low = 0
  let high = most_W
  for (let k = 0; k < 12; k++) {
    const middle = 0.5 * (low + high)
    if (holds(middle)) low = middle
    else high = middle
  }
  return low < 0.01 * most_W ? 0 : low
}

export interface LampJudgement<L> {
  readonly lamp: L
  readonly model: LampModel
  /** Bulk voltage with the no-load draw. */
  readonly idle_V: number | null
  /** Bulk power at which the lamp takes over, W. */
  readonly takesOver_W: number
  /** Mains current and lamp power with everything behind it shorted. */
  readonly short_Arms: number
  readonly short_W: number
  readonly suits: boolean
}

/**
 * Judges lamps at hand for a supply: one suits when the supply starts behind it (bulk at no load above the start
 * voltage) and it takes over between a tenth of the full bulk power and the whole of it. Sorted, best first: suiting
 * ones by the least current into a short. Common practice is 40 to 60 W for a supply of this class (no source).
 */
export function judgeLamps<L extends { readonly power_W: number; readonly voltage_V: number }>(
  lamps: readonly L[],
  model: (lamp: L) => LampModel,
  supply: {
    readonly circuit: Omit<BulkCircuit, 'power_W'>
    readonly line_Vrms: number
    readonly idle_W: number
    readonly full_W: number
    readonly start_V: number
    readonly stop_V: number
  },
): LampJudgement<L>[] {
  return lamps
    .map((lamp): LampJudgement<L> => {
      const m = model(lamp)
      const idle = lampSteady(m, { ...supply.circuit, power_W: supply.idle_W })
      const idle_V = idle === null ? null : idle.bulk.minimum_V
      const takesOver_W = lampTakesOver(
        m,
        { ...supply.circuit, power_W: 1 },
        supply.stop_V,
        2 * supply.full_W,
      )
      const short = lampAlone(m, supply.line_Vrms)
      const suits =
        idle_V !== null &&
        idle_V > supply.start_V &&
        takesOver_W >= 0.1 * supply.full_W &&
        takesOver_W <= supply.full_W
      return {
        lamp,
        model: m,
        idle_V,
        takesOver_W,
        short_Arms: short.current_Arms,
        short_W: short.power_W,
        suits,
      }
    })
    .sort((a, b) => Number(b.suits) - Number(a.suits) || a.short_Arms - b.short_Arms)
}
