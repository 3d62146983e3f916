import { conductorSize_m } from '../../magnetics/wire/index.ts'
import { lifeByTenKelvin, rippleHeating } from '../../mains/capacitor-life.ts'
import type { Capacitor, Diode, Drawer, Wire } from '../../parts/part.ts'
import type { Places } from '../../supply/build.ts'
import type { Need } from '../../supply/need.ts'
import { cheapest, held } from '../pick.ts'
import type { Sizing } from '../sizing.ts'

/** Output capacitors, choke and second capacitor. */
export interface OutputKit {
  readonly places: Pick<Places, 'outputCapacitor' | 'choke' | 'chokeWire' | 'secondCapacitor'>
  readonly outputCount: number
}

/** rms ripple of the first capacitors over the output current, and secondary peak over it, at usual duty. */
const rippleShare = 1.4
const peakShare = 4.2
/** Room over ratings that counts are chosen with. */
const room = 1.08
const mostInParallel = 10
/** What a choke and second capacitor leave of the ripple, taken for choosing. */
const filterLeaves = 0.2
const leastLife_h = 20_000
/** Warmer than outside, where the capacitors stand in the case, K. */
const insideRise_K = { open: 0, 'case-vented': 10, 'case-closed': 20, fan: 0 } as const

/** Output sides from the least bulky; up to `most`, each with its own kind of first capacitor. */
export function outputKits(need: Need, drawer: Drawer, z: Sizing, most: number): OutputKit[] {
  const filter = need.output_A >= 0.5 ? filterFor(need, drawer, z) : null
  const capacitors = held(drawer, 'capacitor').filter((c) => !c.safetyClass)
  const tall = capacitors.filter((c) => 0.9 * c.voltage_V >= 1.02 * z.outputMaximum_V && c.voltage_V < 200)
  const able = tall.length > 0 ? tall : capacitors
  const sized = able
    .filter((c) => c.technology === 'electrolytic' || c.technology === 'polymer')
    .flatMap((part) => {
      const count = countFor(need, drawer, part, filter !== null)
      return count === null ? [] : [{ part, count }]
    })
    .sort((a, b) => bulkOf(a) - bulkOf(b))
  const chosen: { part: Capacitor; count: number }[] = []
  // The next one counts only where it needs fewer pieces.
  for (const one of sized) if (chosen.every((c) => one.count < c.count)) chosen.push(one)
  const kits = chosen.length > 0 ? chosen.slice(0, most) : [largest(able)]
  return kits.map(({ part, count }) => ({
    places: { outputCapacitor: part.id, ...(filter ?? noFilter) },
    outputCount: count,
  }))
}

const noFilter = { choke: null, chokeWire: null, secondCapacitor: null } as const

/** Can volume goes about with ripple rating times voltage class. */
const bulkOf = ({ part, count }: { part: Capacitor; count: number }): number =>
  (count + 0.5) * (part.ripple100kHz_A + 0.3) * (1 + part.voltage_V / 100)

const largest = (capacitors: readonly Capacitor[]): { part: Capacitor; count: number } => ({
  part: cheapest(
    capacitors,
    () => true,
    (c) => (c.voltage_V < 200 ? -c.voltage_V - c.ripple100kHz_A : 1e3),
  )!,
  count: 4,
})

/** How many in parallel for ripple current, ripple voltage and life; null where ten or all at hand will not do. */
function countFor(need: Need, drawer: Drawer, part: Capacitor, filtered: boolean): number | null {
  const allowed = { electronics: 1, resistive: 2, charging: 3 }[need.feeds] * need.ripple_Vpp
  const first_Vpp = allowed / (filtered ? filterLeaves : 1)
  const byCurrent = (room * rippleShare * need.output_A) / part.ripple100kHz_A
  const byVoltage = (room * peakShare * need.output_A * part.resistance_ohm) / first_Vpp
  const quantity = drawer.entries.find((e) => e.part.id === part.id)?.quantity ?? mostInParallel
  const most = Math.min(mostInParallel, quantity)
  for (let count = Math.max(1, Math.ceil(Math.max(byCurrent, byVoltage))); count <= most; count++) {
    const use = (rippleShare * need.output_A) / count / part.ripple100kHz_A
    const hot_C = need.ambient_C + insideRise_K[need.cooling] + rippleHeating(use)
    const lives =
      part.technology !== 'electrolytic' ||
      lifeByTenKelvin(part.life_h, part.temperature_C + 5, Math.min(250, hot_C)) >= leastLife_h
    if (lives) return count
  }
  return null
}

/** Choke, its wire and the capacitor behind it; null where the drawer lacks one. */
function filterFor(
  need: Need,
  drawer: Drawer,
  z: Sizing,
): Omit<OutputKit['places'], 'outputCapacitor'> | null {
  const choke = cheapest(
    held(drawer, 'toroid'),
    (t) => t.outer_m >= 0.011 + 0.0011 * need.output_A && t.permeability > 40,
    (t) => t.outer_m,
  )
  const wires = held(drawer, 'wire').filter((w) => w.construction === 'enamelled')
  const wire = nearestWire(wires, 1e-3 * Math.min(1, 0.5 + need.output_A / 10))
  const second = cheapest(
    held(drawer, 'capacitor').filter((c) => c.technology === 'electrolytic'),
    (c) => c.capacitance_F >= 100e-6 && 0.9 * c.voltage_V >= 1.02 * z.outputMaximum_V && c.voltage_V < 200,
    (c) => c.voltage_V * Math.max(c.capacitance_F, 200e-6) + (c.capacitance_F < 200e-6 ? 1e-3 : 0),
  )
  return choke && wire && second ? { choke: choke.id, chokeWire: wire.id, secondCapacitor: second.id } : null
}

/** The wire nearest to a bare diameter, thinner enamel first; null of an empty list. */
export const nearestWire = (wires: readonly Wire[], bare_m: number): Wire | null =>
  cheapest(
    wires,
    () => true,
    (w) => Math.abs(Math.log(conductorSize_m(w) / bare_m)) + ('grade' in w ? w.grade * 1e-3 : 0),
  )

/** More rectifiers than this are shortened to those that lose least for their voltage. */
const fewRectifiers = 4

/** Heat of a rectifier at an output current in a usual flyback, W. */
const heatAt = (d: Diode, output_A: number, frequency_Hz: number): number =>
  d.drop_V * output_A +
  d.slope_ohm * (1.7 * output_A) ** 2 +
  0.3 * frequency_Hz * d.reverse_V * (0.6 * d.junctionCapacitance_F * d.reverse_V + d.recovery_s * output_A)

/**
 * Fast rectifiers large enough for an output current. Where there are many, those than which none of as high a voltage
 * loses less; of equals the one of the smaller rating. `short` tells whether some were left out.
 */
export function rectifiersFor(
  need: Need,
  drawer: Drawer,
  frequency_Hz: number,
): { readonly diodes: readonly Diode[]; readonly short: boolean } {
  const large = held(drawer, 'diode').filter(
    (d) => d.average_A >= 3 * need.output_A && d.technology !== 'standard' && d.technology !== 'fast',
  )
  if (large.length <= fewRectifiers) return { diodes: large, short: false }
  const heat = (d: Diode) =>
    heatAt(d, need.output_A, frequency_Hz) * (1 + 0.002 * d.average_A + 0.02 * d.junctionToCase_K_per_W)
  const diodes = large
    .filter((d) => !large.some((o) => o !== d && o.reverse_V >= d.reverse_V && heat(o) < heat(d)))
    .sort((a, b) => a.reverse_V - b.reverse_V)
  return { diodes, short: true }
}
