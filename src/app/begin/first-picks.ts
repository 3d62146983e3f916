import { partsOfKind } from '../../engine/parts/drawer.ts'
import type { Capacitor, Diode, Drawer, Part, PartKind, PartOf, Wire } from '../../engine/parts/part.ts'
import type { Place } from '../../engine/supply/build.ts'
import type { Need } from '../../engine/supply/need.ts'

/** What the first picks are made by: power, and the voltages that follow from a reflected voltage of about 100 V. */
interface Aim {
  readonly power_W: number
  readonly wide: boolean
  readonly peak_V: number
  readonly mains: boolean
  readonly rectifierReverse_V: number
}

const aimOf = (need: Need): Aim => {
  const mains = need.source.kind === 'mains'
  const low = need.source.kind === 'mains' ? need.source.minimum_Vrms * Math.SQRT2 : need.source.minimum_V
  const peak_V = need.source.kind === 'mains' ? need.source.maximum_Vrms * Math.SQRT2 : need.source.maximum_V
  return {
    power_W: need.trimHigh_V * need.output_A,
    wide: low < 220,
    peak_V,
    mains,
    rectifierReverse_V: 1.3 * (need.trimHigh_V + (peak_V * (need.output_V + 0.7)) / 100),
  }
}

/** The least part that is enough, else the greatest there is. */
const enough = <P extends Part>(parts: readonly P[], size: (part: P) => number, wanted: number): P | null => {
  const rising = [...parts].sort((a, b) => size(a) - size(b))
  return rising.find((part) => size(part) >= wanted) ?? rising.at(-1) ?? null
}

const volumeOf = (core: PartOf<'core'>): number => {
  const { A_m, B_m, C_m } = core.dimensions
  return core.published?.effectiveVolume_m3 ?? A_m * B_m * C_m
}

const hotSaturation_T = (material: PartOf<'material'>): number =>
  Math.max(...material.saturation.filter((p) => p.temperature_C >= 80).map((p) => p.flux_T))

const bareOf = (wire: Wire): number =>
  wire.construction === 'enamelled' || wire.construction === 'triple-insulated' ? wire.bare_m : 0

/**
 * A part for every place, by the rules of thumb of the trade (common practice, no source): a beginning to improve
 * on, not an answer. Null where the drawer has nothing of the kind, or the place may stay empty.
 */
export const firstPicks = (need: Need, drawer: Drawer): Record<Place, Part | null> => {
  const aim = aimOf(need)
  const kind = <K extends PartKind>(k: K) => partsOfKind(drawer, k)
  const first = <K extends PartKind>(k: K): PartOf<K> | null => kind(k)[0] ?? null
  const { power_W } = aim

  const formers = kind('former')
  const cores = kind('core').filter((c) => formers.some((f) => f.fits.includes(c.size)))
  const classic = cores.filter((c) => ['E', 'EF', 'ETD', 'EER', 'EE'].includes(c.shape))
  const core = enough(classic.length > 0 ? classic : cores, volumeOf, power_W * 1.1e-7)
  const former = core === null ? null : (formers.find((f) => f.fits.includes(core.size)) ?? null)

  const wires = kind('wire')
  const enamelled = wires.filter((w) => w.construction === 'enamelled' && w.grade === 2)
  const insulated = wires.filter((w) => w.construction === 'triple-insulated')
  const diodes = kind('diode')
  const rectifiers = diodes.filter(
    (d) =>
      (d.technology === 'schottky' || d.technology === 'ultrafast') && d.reverse_V >= aim.rectifierReverse_V,
  )
  const fast = (volts: number): Diode | null =>
    enough(
      diodes.filter((d) => d.technology === 'ultrafast' && !d.dual && d.reverse_V >= volts),
      (d) => d.reverse_V + 100 * d.average_A,
      volts,
    )
  const capacitors = kind('capacitor')
  const electrolytic = (volts: number, farads: number): Capacitor | null =>
    enough(
      capacitors.filter(
        (c) => c.technology === 'electrolytic' && c.voltage_V >= volts && c.voltage_V <= 2.5 * volts + 10,
      ),
      (c) => c.capacitance_F,
      farads,
    )
  const safety = (classes: readonly string[], farads: number) =>
    enough(
      capacitors.filter((c) => c.safetyClass !== undefined && classes.includes(c.safetyClass)),
      (c) => c.capacitance_F,
      farads,
    )
  const input_A = power_W / 0.8 / (aim.wide ? 85 : 195) / 0.55
  const sinks = power_W > 15
  const trims = need.trimLow_V < need.trimHigh_V
  const filtered = need.feeds === 'electronics' && need.output_A <= 8
  const references = kind('reference')

  return {
    switcher: enough(
      kind('switcher'),
      (s) => (aim.wide ? s.ratedPowerWide_W : s.ratedPower230_W),
      power_W * 1.15,
    ),
    core,
    material: enough(kind('material'), hotSaturation_T, Number.POSITIVE_INFINITY),
    former,
    primaryWire: enough(enamelled, bareOf, Math.min(0.4e-3, 0.2e-3 + power_W * 2.5e-6)),
    secondaryWire: enough(
      insulated.length > 0 ? insulated : enamelled,
      bareOf,
      Math.min(0.5e-3, 0.3e-3 + need.output_A * 4e-5),
    ),
    biasWire: enough(enamelled, bareOf, 0.2e-3),
    tape: enough(
      kind('tape').filter((t) => t.thickness_m < 0.1e-3),
      (t) => t.width_m - (former?.width_m ?? 0) * 1e-9,
      former?.width_m ?? 0.01,
    ),
    spacerFilm: null,
    rectifier: enough(rectifiers.length > 0 ? rectifiers : diodes, (d) => d.average_A, need.output_A * 2.5),
    clampDiode: fast(600),
    clampAvalanche: null,
    biasDiode: fast(200),
    bridge: aim.mains
      ? enough(
          kind('bridge').filter((b) => b.reverse_V >= aim.peak_V * 1.5),
          (b) => b.average_A,
          input_A * 1.5,
        )
      : null,
    ntc: aim.mains ? enough(kind('ntc'), (n) => n.current_A, input_A * 1.3) : null,
    fuse: enough(
      kind('fuse').filter((f) => f.speed === 'slow'),
      (f) => f.rated_A,
      input_A * 1.6,
    ),
    varistor: aim.mains ? enough(kind('varistor'), (v) => v.continuous_Vrms, aim.peak_V / Math.SQRT2) : null,
    xCapacitor: aim.mains ? safety(['X1', 'X2'], 100e-9) : null,
    commonModeChoke: aim.mains ? enough(kind('common-mode-choke'), (c) => c.current_A, input_A * 1.2) : null,
    yCapacitor: aim.mains ? safety(need.insulation === 'reinforced' ? ['Y1'] : ['Y1', 'Y2'], 1e-9) : null,
    bulkCapacitor: electrolytic(aim.peak_V * 1.02, power_W * (aim.wide ? 2.8e-6 : 1.2e-6)),
    outputCapacitor: electrolytic(need.trimHigh_V * 1.25, 1e-3),
    choke: filtered ? enough(kind('toroid'), (t) => t.outer_m, 0.0125) : null,
    chokeWire: filtered ? enough(enamelled, bareOf, Math.min(1e-3, 0.4e-3 + need.output_A * 1e-4)) : null,
    secondCapacitor: filtered ? electrolytic(need.trimHigh_V * 1.25, 220e-6) : null,
    biasCapacitor: electrolytic(35, 47e-6),
    optocoupler: kind('optocoupler').find((o) => o.transferRatio.minimum >= 0.75) ?? first('optocoupler'),
    reference:
      references.find((r) => (need.trimLow_V < 4.5 ? r.voltage_V.typical < 2 : r.voltage_V.typical > 2)) ??
      first('reference'),
    trimmer: trims ? enough(kind('trimmer'), (t) => t.resistance_ohm, 2e3) : null,
    indicator: first('led'),
    switcherHeatsink: sinks ? enough(kind('heatsink'), (h) => 1 / h.toAmbient_K_per_W, power_W / 700) : null,
    switcherPad: sinks ? first('pad') : null,
    rectifierHeatsink: sinks ? enough(kind('heatsink'), (h) => 1 / h.toAmbient_K_per_W, power_W / 700) : null,
    rectifierPad: sinks ? first('pad') : null,
  }
}
