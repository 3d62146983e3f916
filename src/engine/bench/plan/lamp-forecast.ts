import { type LampModel, lampAlone, lampGlow, lampModel } from '../../mains/lamp.ts'
import type { Lamp } from '../../parts/part.ts'
import type { Design } from '../../supply/design.ts'
import { dropOutBulk_V } from '../../supply/evaluate/drop-out.ts'
import type { AtLoad, Bench } from '../unit/at-load.ts'
import { lampBalance, runThroughLamp } from '../unit/lamp-run.ts'
import type { LampForecast } from './types.ts'

/** Powers that are common practice for a first start of a supply of 5 to 150 W, W. No source. */
const usual = { least_W: 40, most_W: 60 } as const

/** A lamp chosen for the first start. */
export interface LampChoice {
  readonly power_W: number
  readonly voltage_V: number
  readonly atHand: boolean
  readonly reason: string
}

const mainsVolts = (d: Design): number =>
  d.need.source.kind === 'mains' ? d.need.source.nominal_Vrms : d.need.source.nominal_V

/**
 * Lamp for the first start out of those at hand: rated for the mains voltage, and of 40 to 60 W or as near as there is;
 * of two in that range the one nearer to twice the input power at a tenth of the load. Without one at hand, 60 W.
 */
export function chooseLamp(d: Design, lamps: readonly Lamp[], tenth_W: number): LampChoice {
  const mains_V = mainsVolts(d)
  const rated = lamps.filter((l) => l.voltage_V >= 0.9 * mains_V && l.voltage_V <= 1.6 * mains_V)
  const outside = (w: number): number =>
    w < usual.least_W ? usual.least_W / w : w > usual.most_W ? w / usual.most_W : 1
  const wanted_W = Math.min(usual.most_W, Math.max(usual.least_W, 6 * tenth_W))
  const [best] = [...rated].sort(
    (a, b) =>
      outside(a.power_W) - outside(b.power_W) ||
      Math.abs(Math.log(a.power_W / wanted_W)) - Math.abs(Math.log(b.power_W / wanted_W)),
  )
  if (best === undefined)
    return {
      power_W: 60,
      voltage_V: Math.round(mains_V),
      atHand: false,
      reason:
        lamps.length > 0
          ? `no lamp at hand is rated for ${Math.round(mains_V)} V; 60 W is assumed`
          : 'no lamp is at hand; 60 W is assumed',
    }
  const fits = outside(best.power_W) === 1
  return {
    power_W: best.power_W,
    voltage_V: best.voltage_V,
    atHand: true,
    reason: fits
      ? '40 to 60 W is common practice for a supply of this class'
      : `nearest at hand to the usual 40 to 60 W: ${best.power_W < usual.least_W ? 'it takes over early' : 'it limits less'}`,
  }
}

/** Whether the supply still runs from what the lamp leaves of the bulk. */
export function holdsThrough(d: Design, bench: Bench, lamp: LampModel, load: number): boolean {
  const at = bench.at('nominal', load)
  if (at === null) return false
  const balance = lampBalance(d, lamp, at.operation.stage_W)
  if (balance === null) return false
  const { plant } = bench
  const least_V = dropOutBulk_V(
    at.operation.reflected_V,
    plant.inductance_H.typical,
    plant.frequency_Hz.typical,
    plant.currentLimit_A.typical,
    plant.maximumDuty.typical,
    at.operation.stage_W,
    plant.slope_A_per_s,
  )
  return balance.bulk.minimum_V > Math.max(least_V, d.parts.switcher.minimumStartVoltage_V)
}

/** Part of full load up to which the supply runs through a lamp, by bisection; 1 when it runs all of it. */
export function takeOverLoad(d: Design, bench: Bench, lamp: LampModel): number {
  if (holdsThrough(d, bench, lamp, 1)) return 1
  let low = 0
  let high = 1
  for (let k = 0; k < 9; k++) {
    const middle = 0.5 * (low + high)
    if (holdsThrough(d, bench, lamp, middle)) low = middle
    else high = middle
  }
  return low
}

const glowWords = {
  dark: 'dark',
  'dull red': 'a dull red filament',
  orange: 'orange',
  bright: 'bright',
  full: 'nearly at full brightness',
} as const

/** What the lamp will do: flash, glow without load, where it takes over, and what a short would look like. */
export function lampForecast(d: Design, bench: Bench, choice: LampChoice, idle: AtLoad | null): LampForecast {
  const lamp = lampModel(choice.power_W, choice.voltage_V)
  const idle_W = idle?.operation.stage_W ?? 0.5
  const run = runThroughLamp(d, { kind: 'regulates', output_V: d.need.output_V }, idle_W, lamp)
  const takeOver = takeOverLoad(d, bench, lamp)
  const edge = bench.at('nominal', Math.max(0.02, 0.98 * takeOver))
  const balance = edge ? lampBalance(d, lamp, edge.operation.stage_W) : null
  const alone = lampAlone(lamp, mainsVolts(d))
  const flash_K = run?.flash_K ?? lamp.room_K
  const end_K = run?.end_K ?? lamp.room_K
  const percent = Math.round(100 * takeOver)
  return {
    power_W: choice.power_W,
    voltage_V: choice.voltage_V,
    atHand: choice.atHand,
    choice: choice.reason,
    flash_K,
    flash_s: run?.flash_s ?? 0,
    flash:
      flash_K > 900
        ? `flashes ${lampGlow(flash_K) === 'dull red' ? 'dull red' : lampGlow(flash_K)} while the bulk charges, gone after about ${(run?.flash_s ?? 0).toPrecision(2)} s`
        : 'does not visibly flash: the bulk charges too quickly to heat the filament',
    idle: `without load the filament is ${glowWords[lampGlow(end_K)]}`,
    idleBulk_V: run?.bulk_V ?? 0,
    shortCurrent_Arms: alone.current_Arms,
    takeOver,
    takeOverGlow:
      takeOver >= 1
        ? `runs full load through this lamp, filament ${glowWords[lampGlow(balance?.filament_K ?? lamp.room_K)]}`
        : `takes over at about ${percent} % load, filament ${glowWords[lampGlow(balance?.filament_K ?? lamp.room_K)]}; beyond it the bulk sags and the supply ticks`,
    note: `A weak source or a lamp in series can itself make a healthy supply tick: above ${percent} % load, or when the bulk does not reach ${Math.round(d.parts.switcher.minimumStartVoltage_V)} V. A lamp limits to ${alone.current_Arms.toPrecision(2)} A into a short; it is not a fuse and does not isolate.`,
  }
}
