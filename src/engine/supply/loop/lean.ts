import { ratioWithHeat } from '../../loop/index.ts'
import type { Capacitor, Optocoupler } from '../../parts/part.ts'

/** How temperature, age and the optocoupler's spread lean at one corner of the loop. */
export interface Lean {
  readonly temperature: 'cold' | 'middle' | 'hot'
  readonly aged: boolean
  readonly transferRatio: 'minimum' | 'typical' | 'maximum'
}

export const typicalLean: Lean = { temperature: 'middle', aged: false, transferRatio: 'typical' }

/** Every mix of cold and hot, new and aged, weak and strong optocoupler. */
export const leans: readonly Lean[] = (['cold', 'hot'] as const).flatMap((temperature) =>
  [false, true].flatMap((aged) =>
    (['minimum', 'maximum'] as const).map((transferRatio) => ({ temperature, aged, transferRatio })),
  ),
)

export function leanInWords(lean: Lean): string {
  const { temperature, aged, transferRatio } = lean
  if (transferRatio === 'typical') return 'typical parts'
  return `${temperature}, ${aged ? 'aged' : 'new'}, ${transferRatio === 'minimum' ? 'weak' : 'strong'} optocoupler`
}

/** Electrolytic at end of life: capacitance lost and series resistance gained; makers' usual end-of-life mark is
 * -20 % and twice the resistance (common practice, no source). */
const aged = { capacitance: 0.8, resistance: 2 }
/** Series resistance of an electrolytic at 0 and at 80 °C over that at 20 °C; typical, no source. */
const electrolyteResistance = { cold: 2, middle: 1, hot: 0.6 }

/** A bank of equal capacitors at one corner. */
export function bankAt(
  part: Capacitor,
  count: number,
  lean: Lean,
): { capacitance_F: number; resistance_ohm: number } {
  const wet = part.technology === 'electrolytic'
  return {
    capacitance_F: part.capacitance_F * count * (wet && lean.aged ? aged.capacitance : 1),
    resistance_ohm:
      (part.resistance_ohm / count) *
      (wet ? electrolyteResistance[lean.temperature] * (lean.aged ? aged.resistance : 1) : 1),
  }
}

/** Transfer ratio at the optocoupler's test current. */
export const transferRatioAt = (part: Optocoupler, lean: Lean): number =>
  part.transferRatio[lean.transferRatio] * ratioWithHeat[lean.temperature] * (lean.aged ? part.ageing : 1)
