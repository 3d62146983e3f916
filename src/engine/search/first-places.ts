import { fitSteinmetz, sineLoss } from '../magnetics/material/index.ts'
import { conductorSize_m, copperArea_m2, copperSkinDepth_m } from '../magnetics/wire/index.ts'
import type { Capacitor, Core, Drawer, Former, Material, Switcher, Wire } from '../parts/part.ts'
import type { Places } from '../supply/build.ts'
import type { Need } from '../supply/need.ts'
import { cheapest, cheapestOrNearest, held } from './pick.ts'
import { type Sizing, sizing } from './sizing.ts'

/** Chooses a part for every place by rule, from what the drawer holds. */
export function firstPlaces(
  need: Need,
  drawer: Drawer,
  switcher: Switcher,
  core: Core,
  former: Former,
): Places {
  const z = sizing(need)
  const diodes = held(drawer, 'diode')
  const capacitors = held(drawer, 'capacitor')
  const wires = held(drawer, 'wire')
  const skin_m = copperSkinDepth_m(switcher.frequency_Hz.typical, 100)
  const enamelled = wires.filter((w) => w.construction === 'enamelled')
  const insulated = wires.filter(
    (w) =>
      w.construction === 'triple-insulated' && (w.insulation === 'reinforced' || need.insulation === 'basic'),
  )
  const primary_Arms = (1.6 * z.power_W) / 0.8 / (z.mains ? 1.05 * lowest_V(need) : lowest_V(need))
  const rectifier = cheapestOrNearest(
    diodes,
    (d) =>
      d.reverse_V >= z.rectifierReverse_V &&
      d.average_A >= 3 * need.output_A &&
      d.technology !== 'standard' &&
      d.technology !== 'fast',
    (d) => (d.drop_V + d.slope_ohm * 2 * need.output_A) * 100 + d.average_A * 0.2 + d.reverse_V * 0.01,
    (d) => Math.min(d.reverse_V / z.rectifierReverse_V, d.average_A / (3 * need.output_A)),
  )!
  const standsClamp_V = 1.1 * (z.crest_V + 1.9 * z.reflected_V)
  const clampDiode = cheapestOrNearest(
    diodes,
    (d) => d.reverse_V >= standsClamp_V && d.recovery_s > 0 && d.recovery_s <= 300e-9,
    (d) => d.average_A * 1000 + d.reverse_V,
    (d) => d.reverse_V / (1 + d.recovery_s * 1e7),
  )!
  const biasReverse_V = 1.3 * (20 + (z.crest_V * 15) / z.reflected_V)
  const biasDiode = cheapestOrNearest(
    diodes,
    (d) => d.reverse_V >= biasReverse_V && d.technology !== 'standard',
    (d) => d.average_A * 1000 + d.reverse_V,
    (d) => d.reverse_V,
  )!
  const reference = cheapestOrNearest(
    held(drawer, 'reference'),
    (r) =>
      need.trimLow_V >= r.minimumCathode_V + 1.2 + 0.8 &&
      r.maximumCathode_V >= z.outputMaximum_V &&
      need.trimLow_V > r.voltage_V.typical * 1.05,
    // The tighter and the higher reference, where it fits.
    (r) => 100 * (r.voltage_V.maximum / r.voltage_V.minimum) - r.voltage_V.typical,
    (r) => r.maximumCathode_V - 20 * r.voltage_V.typical,
  )!
  const trims = need.trimLow_V < need.trimHigh_V
  const spread =
    (need.trimHigh_V - reference.voltage_V.typical) /
    Math.max(0.1, need.trimLow_V - reference.voltage_V.typical)
  const trimmer = trims
    ? cheapestOrNearest(
        held(drawer, 'trimmer'),
        (t) => t.resistance_ohm / (spread - 1) >= 1500,
        (t) => t.resistance_ohm,
        (t) => t.resistance_ohm,
      )
    : null
  const filtered = need.output_A >= 0.5
  const choke = filtered
    ? cheapest(
        held(drawer, 'toroid'),
        (t) => t.outer_m >= 0.011 + 0.0011 * need.output_A && t.permeability > 40,
        (t) => t.outer_m,
      )
    : null
  const chokeWire = choke ? nearestWire(enamelled, 1e-3 * Math.min(1, 0.5 + need.output_A / 10)) : null
  const electrolytics = capacitors.filter((c) => c.technology === 'electrolytic')
  const second =
    choke && chokeWire
      ? cheapest(
          electrolytics,
          (c) => c.capacitance_F >= 200e-6 && 0.88 * c.voltage_V >= z.outputMaximum_V && c.voltage_V < 200,
          (c) => c.voltage_V * c.capacitance_F,
        )
      : null
  const bulkEach_F = bulkWanted_F(z)
  return {
    switcher: switcher.id,
    core: core.id,
    material: bestMaterial(held(drawer, 'material'), switcher.frequency_Hz.typical).id,
    former: former.id,
    primaryWire: wireFor(enamelled.length > 0 ? enamelled : wires, primary_Arms, 1.9 * skin_m).id,
    secondaryWire: wireFor(insulated.length > 0 ? insulated : wires, 1.7 * need.output_A, 2.1 * skin_m).id,
    biasWire: nearestWire(enamelled.length > 0 ? enamelled : wires, 0.2e-3).id,
    tape: cheapestOrNearest(
      held(drawer, 'tape'),
      (t) => t.width_m <= former.width_m * 1.02 && t.thickness_m >= 50e-6 && t.thickness_m <= 70e-6,
      (t) => -t.width_m,
      (t) => -t.width_m,
    )!.id,
    spacerFilm: null,
    rectifier: rectifier.id,
    clampDiode: clampDiode.id,
    clampAvalanche: null,
    biasDiode: biasDiode.id,
    bridge: z.mains
      ? (cheapest(
          held(drawer, 'bridge'),
          (b) => b.reverse_V >= 1.5 * z.crest_V && b.average_A >= 2 * z.input_Arms,
          (b) => b.average_A,
        )?.id ?? null)
      : null,
    ntc:
      cheapest(
        held(drawer, 'ntc'),
        (n) =>
          n.current_A >= 1.3 * z.input_Arms &&
          n.maximumCapacitance_F >= 1.7 * bulkEach_F &&
          n.cold_ohm >= z.crest_V / 50,
        (n) => n.hot_ohm,
      )?.id ?? null,
    fuse:
      cheapest(
        held(drawer, 'fuse'),
        (f) => f.speed === 'slow' && f.rated_A >= 1.6 * z.input_Arms,
        (f) => f.rated_A,
      )?.id ?? null,
    varistor: z.mains
      ? (cheapest(
          held(drawer, 'varistor'),
          (v) => v.continuous_Vrms >= z.crest_V / Math.SQRT2,
          (v) => v.continuous_Vrms * 10 - v.energy_J,
        )?.id ?? null)
      : null,
    xCapacitor: z.mains
      ? (safetyCapacitor(capacitors, 'X', z.crest_V / Math.SQRT2, z.power_W > 40 ? 220e-9 : 100e-9)?.id ??
        null)
      : null,
    commonModeChoke: z.mains
      ? (cheapest(
          held(drawer, 'common-mode-choke'),
          (c) => c.current_A >= 1.2 * z.input_Arms,
          (c) => c.current_A,
        )?.id ?? null)
      : null,
    yCapacitor: z.mains
      ? (safetyCapacitor(
          capacitors,
          need.insulation === 'reinforced' ? 'Y1' : 'Y',
          z.crest_V / Math.SQRT2,
          2.2e-9,
        )?.id ?? null)
      : null,
    bulkCapacitor: cheapestOrNearest(
      electrolytics,
      (c) => c.voltage_V >= 1.02 * z.crest_V && c.capacitance_F >= bulkEach_F,
      (c) => c.capacitance_F * 1e6 + c.voltage_V * 0.01,
      (c) => (c.voltage_V >= 1.02 * z.crest_V ? 1 : 0) + c.capacitance_F,
    )!.id,
    outputCapacitor: outputCapacitorFor(electrolytics.length > 0 ? electrolytics : capacitors, z, need).id,
    choke: choke && chokeWire && second ? choke.id : null,
    chokeWire: choke && chokeWire && second ? chokeWire.id : null,
    secondCapacitor: choke && chokeWire && second ? second.id : null,
    biasCapacitor: cheapestOrNearest(
      electrolytics.length > 0 ? electrolytics : capacitors,
      (c) => c.voltage_V >= 30 && c.voltage_V <= 100 && c.capacitance_F >= 40e-6,
      (c) => c.capacitance_F * c.voltage_V,
      (c) => -Math.abs(c.voltage_V - 35),
    )!.id,
    optocoupler: cheapest(
      held(drawer, 'optocoupler'),
      () => true,
      // A narrow, middling spread of transfer ratio.
      (o) =>
        o.transferRatio.maximum / o.transferRatio.minimum + Math.abs(Math.log(o.transferRatio.typical / 1.4)),
    )!.id,
    reference: reference.id,
    trimmer: trimmer?.id ?? null,
    indicator: held(drawer, 'led').find((l) => l.drop_V < need.trimLow_V - 0.5)?.id ?? null,
    switcherHeatsink: null,
    switcherPad: null,
    rectifierHeatsink: null,
    rectifierPad: null,
  }
}

const lowest_V = (need: Need): number =>
  need.source.kind === 'mains' ? need.source.minimum_Vrms : need.source.minimum_V

/** Bulk capacitance by rule: 2.5 µF/W for wide input, 1.2 µF/W for 230 V alone; little for a DC bus. */
const bulkWanted_F = (z: Sizing): number => (z.mains ? (z.wide ? 2.6e-6 : 1.2e-6) : 0.5e-6) * z.power_W

const bestMaterial = (materials: readonly Material[], frequency_Hz: number): Material =>
  cheapest(
    materials,
    () => true,
    (m) => {
      const fit = fitSteinmetz(m.lossPoints)
      return fit.ok ? sineLoss(fit.value, frequency_Hz, 0.1, 100) : Number.MAX_VALUE
    },
  )!

/** The wire that carries the current in the fewest hands without being thicker than the skin effect allows. */
function wireFor(wires: readonly Wire[], rms_A: number, thickest_m: number): Wire {
  const wanted_m2 = rms_A / 5e6
  return cheapestOrNearest(
    wires.filter((w) => w.construction !== 'foil' && w.construction !== 'litz'),
    (w) => conductorSize_m(w) <= thickest_m,
    (w) => {
      const hands = Math.max(1, Math.ceil(wanted_m2 / copperArea_m2(w) - 0.1))
      return hands * 10 + (hands * copperArea_m2(w)) / wanted_m2 + ('grade' in w ? w.grade * 0.1 : 0)
    },
    (w) => -conductorSize_m(w),
  )!
}

const nearestWire = (wires: readonly Wire[], bare_m: number): Wire =>
  cheapest(
    wires,
    () => true,
    (w) => Math.abs(Math.log(conductorSize_m(w) / bare_m)) + ('grade' in w ? w.grade * 1e-3 : 0),
  )!

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

/** Fewest capacitors for the ripple current, then the smallest. */
function outputCapacitorFor(capacitors: readonly Capacitor[], z: Sizing, need: Need): Capacitor {
  const ripple_A = 1.35 * need.output_A
  const hands = (c: Capacitor): number => Math.max(1, Math.ceil(ripple_A / c.ripple100kHz_A))
  return cheapestOrNearest(
    capacitors,
    (c) =>
      0.88 * c.voltage_V >= z.outputMaximum_V && c.voltage_V < 200 && c.ripple100kHz_A > 0 && !c.safetyClass,
    (c) => (hands(c) + 1) * 10 + c.voltage_V * c.capacitance_F * 100,
    (c) => (c.voltage_V < 200 ? c.voltage_V : 0),
  )!
}
