import { solveBulk } from '../../mains/bulk.ts'
import { coolAllowance } from '../../mains/capacitor-life.ts'
import { inrush } from '../../mains/inrush.ts'
import { surgedBulk_V } from '../../mains/surge.ts'
import { hotThermistor } from '../../mains/thermistor.ts'
import type { Bridge, Capacitor, Drawer, Fuse, Ntc } from '../../parts/part.ts'
import type { Places } from '../../supply/build.ts'
import { bulkSource } from '../../supply/evaluate/bulk-source.ts'
import type { Need } from '../../supply/need.ts'
import { mayBeBulk } from '../missing.ts'
import { cheapest, cheapestOrNearest, held } from '../pick.ts'
import type { Sizing } from '../sizing.ts'

/** Everything from the plug to the bulk capacitor. */
export interface MainsKit {
  readonly places: Pick<
    Places,
    'bridge' | 'ntc' | 'fuse' | 'varistor' | 'xCapacitor' | 'commonModeChoke' | 'yCapacitor' | 'bulkCapacitor'
  >
  readonly bulkCount: number
}

/** Room over its rating that a part is chosen with where the drawer allows it. */
const room = 1.12
/** Power drawn by the stage is taken no lower than this part of the output: an efficiency of 78 %. */
const leastEfficiency = 0.78
/** Valley over crest that the bulk is chosen for, a little over the limit of 0.6. */
const valleyAim = 0.63
const mostBulk = 4
/** Resistance in series with the bridge before its parts are known, ohm. */
const usualSeries_ohm = 1.5
/** Switching ripple of the bulk over the mean current drawn from it, at usual duty and ripple ratio. */
const switchingShare = 1.6
/** Line and contact resistance, as the readings take it, ohm. */
const line_ohm = 0.4

interface Bulk {
  readonly part: Capacitor
  readonly count: number
  /** Least of what it offers over what it must stand, and over what the trade asks. */
  readonly reach: number
  readonly input_Arms: number
}

/**
 * The mains side by the relations that its limits are read from: the smallest bulk that keeps its valley, its ripple
 * rating and the hold-up asked for, then up to `most - 1` larger ones; to each the smallest bridge, fuse and
 * thermistor that stand its charging current and its inrush.
 */
export function mainsKits(need: Need, drawer: Drawer, z: Sizing, most: number): MainsKit[] {
  const bulks = bulkChoices(need, drawer, z).slice(0, most)
  return bulks.map((bulk) => ({ places: { ...kitFor(need, drawer, z, bulk) }, bulkCount: bulk.count }))
}

function bulkChoices(need: Need, drawer: Drawer, z: Sizing): Bulk[] {
  const able = held(drawer, 'capacitor').filter(mayBeBulk)
  const tall = able.filter((c) => c.voltage_V >= z.crest_V)
  const all = (tall.length > 0 ? tall : able).flatMap((part) =>
    countsOf(drawer, part).map((count) => bulkOf(need, z, part, count)),
  )
  const size = ({ part, count }: Bulk) =>
    part.capacitance_F * part.voltage_V * count * (1 + 0.15 * (count - 1))
  const good = all.filter((b) => b.reach >= 1).sort((a, b) => size(a) - size(b))
  if (good.length === 0) return all.sort((a, b) => b.reach - a.reach).slice(0, 1)
  // Each next choice is worth a try only where it holds clearly more.
  const chosen: Bulk[] = []
  for (const b of good) {
    const last = chosen.at(-1)
    if (!last || b.part.capacitance_F * b.count > 1.25 * last.part.capacitance_F * last.count) chosen.push(b)
  }
  return chosen
}

const countsOf = (drawer: Drawer, part: Capacitor): number[] => {
  const quantity = drawer.entries.find((e) => e.part.id === part.id)?.quantity ?? mostBulk
  return [1, 2, 3, 4].filter((n) => n <= Math.min(mostBulk, Math.max(1, quantity)))
}

function bulkOf(need: Need, z: Sizing, part: Capacitor, count: number): Bulk {
  const source = bulkSource(need, 'minimum')
  const power_W = z.power_W / leastEfficiency
  const capacitance_F = part.capacitance_F * (1 - part.toleranceDown) * count
  const at = (from: typeof source, F: number) =>
    solveBulk({
      source: from,
      seriesResistance_ohm: usualSeries_ohm,
      bridgeDrop_V: z.mains ? 0.72 : 0,
      capacitance_F: F,
      power_W,
    })
  const low = at(source, capacitance_F)
  if (!low.ok)
    return { part, count, reach: 1e-3 * Math.min(1, capacitance_F / 1e-3), input_Arms: 2 * z.input_Arms }
  const switching_A = (switchingShare * power_W) / low.average_V
  const scaled_A = (switching_A * part.ripple100Hz_A) / part.ripple100kHz_A
  const each_A = Math.hypot(low.capacitorRipple_Arms, scaled_A) / count
  const usual = at(bulkSource(need, 'nominal'), capacitance_F)
  const drop_V = 0.55 * low.maximum_V
  const held_s = usual.ok ? (capacitance_F * (usual.minimum_V ** 2 - drop_V ** 2)) / (2 * power_W) : 0
  return {
    part,
    count,
    input_Arms: low.input_Arms,
    reach: Math.min(
      z.mains ? low.minimum_V / low.maximum_V / valleyAim : capacitance_F / (0.3e-6 * z.power_W),
      (part.ripple100Hz_A * coolAllowance(part.temperature_C, need.ambient_C)) / each_A,
      need.holdUp_s > 0 ? Math.max(1e-3, held_s) / need.holdUp_s : 10,
      part.voltage_V / z.crest_V,
    ),
  }
}

function kitFor(need: Need, drawer: Drawer, z: Sizing, bulk: Bulk): MainsKit['places'] {
  const input_Arms = bulk.input_Arms
  const chokes = held(drawer, 'common-mode-choke')
  const choke = z.mains
    ? cheapestOrNearest(
        chokes,
        (c) => c.current_A >= room * input_Arms,
        (c) => c.current_A,
        (c) => c.current_A,
      )
    : null
  const fixed_ohm = line_ohm + (choke?.resistance_ohm ?? 0) + bulk.part.resistance_ohm / bulk.count
  const { bridge, ntc, fuse } = surgeParts(need, drawer, z, bulk, fixed_ohm)
  const highest_Vrms = z.crest_V / Math.SQRT2
  const capacitors = held(drawer, 'capacitor')
  return {
    bridge: bridge?.id ?? null,
    ntc: ntc?.id ?? null,
    fuse: fuse?.id ?? null,
    varistor: z.mains
      ? (cheapest(
          held(drawer, 'varistor'),
          (v) => v.continuous_Vrms >= highest_Vrms,
          (v) => v.continuous_Vrms * 10 - v.energy_J,
        )?.id ?? null)
      : null,
    xCapacitor: z.mains
      ? (safetyCapacitor(capacitors, 'X', highest_Vrms, z.power_W > 40 ? 220e-9 : 100e-9)?.id ?? null)
      : null,
    commonModeChoke: choke?.id ?? null,
    yCapacitor: z.mains
      ? (safetyCapacitor(capacitors, need.insulation === 'reinforced' ? 'Y1' : 'Y', highest_Vrms, 2.2e-9)
          ?.id ?? null)
      : null,
    bulkCapacitor: bulk.part.id,
  }
}

interface Surge {
  readonly bridge: Bridge | null
  readonly ntc: Ntc | null
  readonly fuse: Fuse | null
}

/** Bridge, thermistor and fuse together: the smallest three that stand plugging in and the charging current. */
function surgeParts(need: Need, drawer: Drawer, z: Sizing, bulk: Bulk, fixed_ohm: number): Surge {
  const bridges = z.mains ? held(drawer, 'bridge') : []
  const ntcs = held(drawer, 'ntc')
  const fuses = held(drawer, 'fuse').filter((f) => f.speed === 'slow')
  const nominal_V = need.source.kind === 'mains' ? need.source.nominal_Vrms : need.source.maximum_V
  const capacitance_F = bulk.part.capacitance_F * bulk.count
  const choices: Surge[] = []
  for (const bridge of bridges.length > 0 ? bridges : [null])
    for (const ntc of [...ntcs, null])
      for (const fuse of fuses.length > 0 ? fuses : [null]) choices.push({ bridge, ntc, fuse })
  const shocks = new Map<Ntc | null, { peak_A: number; squareIntegral_A2s: number; hot_A: number }>()
  const shock = (ntc: Ntc | null) => {
    let found = shocks.get(ntc)
    if (!found) {
      const from = (thermistor_C: number) =>
        inrush({
          crest_V: z.crest_V,
          capacitance_F: capacitance_F * (1 + bulk.part.toleranceUp),
          fixedResistance_ohm: fixed_ohm,
          thermistor: ntc,
          thermistor_C,
        })
      const cold = from(need.ambient_C)
      // Switched off and on again: the thermistor is as hot as its current makes it.
      const hot = ntc ? from(hotThermistor(ntc, bulk.input_Arms, need.ambient_C).temperature_C) : cold
      found = { ...cold, hot_A: hot.peak_A }
      shocks.set(ntc, found)
    }
    return found
  }
  const reach = ({ bridge, ntc, fuse }: Surge): number => {
    const { peak_A, squareIntegral_A2s, hot_A } = shock(ntc)
    const line = bulk.input_Arms
    return Math.min(
      bridge ? bridge.reverse_V / (1.25 * z.crest_V) : 10,
      bridge ? (room * bridge.reverse_V) / surgedBulk_V(z.crest_V, capacitance_F) : 10,
      bridge && fuse ? bridge.meltingIntegral_A2s / fuse.meltingIntegral_A2s : 10,
      bridge ? bridge.average_A / (z.input_Arms / 1.3) : 10,
      // A bridge hotter than its package sheds: two drops at its mean current.
      bridge
        ? (bridge.maximumJunction_C - need.ambient_C) / (1.6 * line * bridge.junctionToAmbient_K_per_W + 20)
        : 10,
      bridge ? bridge.surge_A / Math.max(peak_A, hot_A) : 10,
      ntc ? ntc.current_A / line : 10,
      ntc && z.mains ? ntc.maximumCapacitance_F / (capacitance_F * (z.crest_V / Math.SQRT2 / 230) ** 2) : 10,
      fuse ? (0.75 * fuse.rated_A) / line : 10,
      fuse ? (0.3 * fuse.meltingIntegral_A2s) / squareIntegral_A2s : 10,
      fuse && fuse.voltage_V < nominal_V ? 0.5 : 10,
    )
  }
  return cheapestOrNearest(
    choices,
    (s) => reach(s) >= room,
    ({ bridge, ntc, fuse }) =>
      10 * (fuse?.rated_A ?? 0) +
      0.002 * (fuse?.voltage_V ?? 0) +
      (bridge?.average_A ?? 0) +
      2 * (ntc?.hot_ohm ?? 0),
    reach,
  )!
}

const safetyCapacitor = (
  capacitors: readonly Capacitor[],
  kind: string,
  input_Vrms: number,
  wanted_F: number,
): Capacitor | null =>
  cheapest(
    capacitors,
    (c) => (c.safetyClass?.startsWith(kind) ?? false) && c.voltage_V >= input_Vrms,
    (c) => Math.abs(Math.log(c.capacitance_F / wanted_F)) + (c.safetyClass?.endsWith('1') ? 0 : 0.01),
  )
