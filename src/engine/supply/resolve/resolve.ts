import { formerProblems } from '../../magnetics/core/index.ts'
import { saturationFlux } from '../../magnetics/material/index.ts'
import { formatQuantity } from '../../quantity/index.ts'
import { type Spread, withTolerance } from '../../quantity/spread.ts'
import type { Measured } from '../bench-log.ts'
import type { Build } from '../build.ts'
import type { ChoiceName, Design, PartsUsed } from '../design.ts'
import { fail, type Result, succeed } from '../result.ts'
import type { Supply } from '../supply.ts'
import { chooseChoke } from './choke.ts'
import { chooseClamp } from './clamp.ts'
import { type Coil, windCoil } from './coil.ts'
import { coreFacts } from './core-facts.ts'
import { estimate } from './estimate.ts'
import { chooseFeedback, indicatorResistor } from './feedback.ts'
import { ferriteFacts } from './ferrite.ts'
import { chooseGap, type Gap } from './gap.ts'
import { greatestFlux_T } from './greatest-flux.ts'
import { withOpenNetwork } from './open-network.ts'
import { partsUsed } from './parts-used.ts'
import { preferredBelow } from './preferred.ts'
import { pulsedFerrite } from './pulsed-ferrite.ts'
import { chooseTurns, type Turns } from './turns.ts'

/** Core temperature at which the flux is chosen. */
const hot_C = 100
/** Accuracy of an LCR meter where its maker's figure was not noted. */
const usualAccuracy = 0.05
/** Spread of a leakage that was only calculated: hand winding; and of a bulk capacitor that was only measured. */
const leakageSpread = { down: 0.7, up: 1.5 }
/** Share of the hot saturation flux that turns chosen here reach at the worst. */
const fluxUse = 0.98
/** Between these a bulk capacitor of these supplies lies, with a decade or more of room. */
const leastBulk_F = 10e-9
const mostBulk_F = 0.1
/** Secondary turns that are added where the first choice would saturate. */
const mostMoreTurns = 4
/** Resistance of the bleed: the plug must fall to 37 % within this time, s. */
const bleedTime_s = 0.8

/**
 * Settles every open choice of a supply: from need, parts and what the builder has fixed, to a design in which every
 * value is a number. Values measured at the bench take the place of planned ones.
 * Errors: a place whose part is missing or of another kind, a former that does not fit the core, a winding that
 * cannot be wound, an inductance that no gap gives; each names its field.
 */
export function resolve(supply: Supply): Result<Design> {
  const { need, build, bench } = supply
  const used = partsUsed(supply)
  if (!used.ok) return used
  const parts = used.value
  const core = coreFacts(parts.core)
  if (!core.ok) return inPlace('core', core)
  const ferrite = ferriteFacts(parts.material)
  if (!ferrite.ok) return inPlace('material', ferrite)
  const fits = formerProblems(core.value.geometry, parts.former)
  if (fits.length > 0) return inPlace('former', { problems: fits })

  const bulk = bulkSpread(build, parts, bench.asBuilt.bulkCapacitance_F)
  if (!(bulk.minimum >= leastBulk_F && bulk.maximum <= mostBulk_F))
    return fail(
      bench.asBuilt.bulkCapacitance_F ? 'bench.asBuilt.bulkCapacitance_F' : 'build.places.bulkCapacitor',
      `the bulk capacitance may be ${formatQuantity(bulk.minimum, 'F')} to ${formatQuantity(bulk.maximum, 'F')}, but must lie between ${formatQuantity(leastBulk_F, 'F')} and ${formatQuantity(mostBulk_F, 'F')}`,
    )
  const e = estimate(need, parts, bulk.typical)
  const wind = (leastSecondary: number): Result<Wound> => {
    const turns = chooseTurns(need, build, parts, core.value, saturation_T, e, leastSecondary)
    const gap = chooseGap(build.transformer, parts, core.value, turns)
    if (!gap.ok) return gap
    const coil = windCoil(need, build.transformer, parts, core.value, turns, e.frequency_Hz)
    return coil.ok ? succeed({ turns, gap: gap.value, coil: coil.value }) : coil
  }
  const saturation_T = saturationFlux(ferrite.value.curve, hot_C)
  const first = wind(1)
  if (!first.ok) return first
  const { turns, gap, coil } = unsaturated(
    first.value,
    wind,
    (w) => greatestFlux_T(build, parts, core.value, w.turns, w.gap, w.coil, e) <= fluxUse * saturation_T,
    build,
  )

  const asBuilt = bench.asBuilt
  const plannedLeakage = {
    minimum: leakageSpread.down * coil.leakage_H,
    typical: coil.leakage_H,
    maximum: leakageSpread.up * coil.leakage_H,
  }
  const leakage_H = read(asBuilt.leakage_H) ?? plannedLeakage
  const primaryInductance_H = read(asBuilt.primaryInductance_H) ?? gap.inductance_H
  const pulsed = {
    turns: turns.primary,
    area_m2: core.value.geometry.effective.minimumArea_m2,
    inductance_H: primaryInductance_H.typical,
  }
  const clamp = chooseClamp(build, parts, turns, leakage_H.typical, coil.drainCapacitance_F, e)
  if (!clamp.ok) return clamp
  const feedback = chooseFeedback(need, build, parts)
  if (!feedback.ok) return feedback

  const wound = chooseChoke(need, build, parts, e.frequency_Hz)
  if (!wound.ok) return wound
  const choke = wound.value

  const design: Design = {
    supply,
    need,
    parts,
    core: core.value,
    ferrite: pulsedFerrite(ferrite.value, pulsed, asBuilt.saturationCurrent_A),
    transformer: {
      primaryTurns: turns.primary,
      secondaryTurns: turns.secondary,
      biasTurns: turns.bias,
      turnsRatio: turns.turnsRatio,
      reflectedVoltage_V: turns.reflectedVoltage_V,
      aimedReflectedVoltage_V: turns.aimedReflectedVoltage_V,
      rippleRatio: turns.rippleRatio,
      gapPlace: build.transformer.gapPlace,
      gap_m: gap.gap_m,
      aimedGap_m: gap.aimed_m,
      aimedInductance_H: turns.inductance_H,
      plannedInductance_H: gap.inductance_H,
      primaryInductance_H,
      inductanceFactor_H: gap.factor_H,
      plannedLeakage_H: plannedLeakage,
      leakage_H,
      primaryInHand: coil.primaryInHand,
      secondaryInHand: coil.secondaryInHand,
      biasInHand: coil.biasInHand,
      margin_m: coil.margin_m,
      stack: coil.stack,
      coil: coil,
      primaryResistance20_ohm: asBuilt.primaryResistance_ohm?.value ?? coil.primary.dcResistance_ohm,
      secondaryResistance20_ohm: asBuilt.secondaryResistance_ohm?.value ?? coil.secondary.dcResistance_ohm,
      biasResistance20_ohm: asBuilt.biasResistance_ohm?.value ?? coil.bias.dcResistance_ohm,
      measured: {
        primaryInductance: asBuilt.primaryInductance_H !== null,
        leakage: asBuilt.leakage_H !== null,
        primaryResistance: asBuilt.primaryResistance_ohm !== null,
        secondaryResistance: asBuilt.secondaryResistance_ohm !== null,
        biasResistance: asBuilt.biasResistance_ohm !== null,
      },
    },
    biasVoltage_V:
      ((need.output_V + e.rectifierDrop_V) * turns.bias) / turns.secondary - parts.biasDiode.drop_V,
    clamp: clamp.value,
    feedback: feedback.value,
    choke,
    chokeTurns: choke?.turns ?? 0,
    chokeInHand: choke?.inHand ?? 0,
    bleed_ohm: parts.xCapacitor
      ? (build.bleed_ohm ??
        preferredBelow(Math.min(2e6, bleedTime_s / parts.xCapacitor.capacitance_F), 'E12'))
      : 0,
    indicatorResistor_ohm: parts.indicator
      ? (build.indicatorResistor_ohm ??
        indicatorResistor(need.output_V, parts.indicator.drop_V, parts.indicator.wanted_A))
      : 0,
    bulkCapacitance_F: bulk,
    chosen: chosenIn(build, parts),
  }
  return succeed(withOpenNetwork(design))
}

interface Wound {
  readonly turns: Turns
  readonly gap: Gap
  readonly coil: Coil
}

/**
 * The transformer of the fewest turns from the first on whose core does not saturate, where turns are the tool's to
 * choose; the first where a few more do not help.
 */
function unsaturated(
  first: Wound,
  wind: (leastSecondary: number) => Result<Wound>,
  holds: (w: Wound) => boolean,
  { transformer: t }: Build,
): Wound {
  if (t.primaryTurns !== null || t.secondaryTurns !== null) return first
  if (t.gap_m !== null || t.stack !== null || holds(first)) return first
  for (let more = 1; more <= mostMoreTurns; more++) {
    const next = wind(first.turns.secondary + more)
    if (next.ok && holds(next.value)) return next.value
  }
  return first
}

/** A failure of a part, named by its place. */
const inPlace = (
  place: string,
  failure: { readonly problems: readonly { readonly path: string; readonly message: string }[] },
): Result<never> => ({
  ok: false,
  problems: failure.problems.map((p) => ({ path: `build.places.${place}`, message: p.message })),
})

/** A bench reading with its meter's spread; null where nothing was read, or zero. */
function read(m: Measured | null): Spread | null {
  return m === null || m.value === 0 ? null : withTolerance(m.value, m.accuracy ?? usualAccuracy)
}

function bulkSpread(build: Build, parts: PartsUsed, measured: Measured | null): Spread {
  const part = parts.bulkCapacitor
  if (measured && measured.value > 0) return withTolerance(measured.value, measured.accuracy ?? usualAccuracy)
  const total = part.capacitance_F * build.bulkCount
  return {
    minimum: total * (1 - part.toleranceDown),
    typical: total,
    maximum: total * (1 + part.toleranceUp),
  }
}

/** Which choices the tool made. */
function chosenIn(build: Build, parts: PartsUsed): Record<ChoiceName, boolean> {
  const t = build.transformer
  const f = build.feedback
  const c = build.clamp
  return {
    reflectedVoltage_V: t.reflectedVoltage_V === null,
    rippleRatio: t.rippleRatio === null,
    primaryTurns: t.primaryTurns === null,
    secondaryTurns: t.secondaryTurns === null,
    biasTurns: t.biasTurns === null,
    biasVoltage_V: t.biasVoltage_V === null,
    gap_m: t.gap_m === null,
    primaryInHand: t.primaryInHand === null,
    secondaryInHand: t.secondaryInHand === null,
    biasInHand: t.biasInHand === null,
    margin_m: t.margin_m === null,
    stack: t.stack === null,
    clampVoltage_V: c.voltage_V === null,
    clampResistor_ohm: c.resistor_ohm === null,
    clampCapacitor_F: c.capacitor_F === null,
    dividerTop_ohm: f.dividerTop_ohm === null,
    dividerBottom_ohm: f.dividerBottom_ohm === null,
    ledResistor_ohm: f.ledResistor_ohm === null,
    biasResistor_ohm: f.biasResistor_ohm === null,
    compensationResistor_ohm: f.compensationResistor_ohm === null,
    compensationCapacitor_F: f.compensationCapacitor_F === null,
    highFrequencyCapacitor_F: f.highFrequencyCapacitor_F === null,
    softFinishCapacitor_F: f.softFinishCapacitor_F === null,
    chokeTurns: build.chokeTurns === null && parts.choke !== null,
    chokeInHand: build.chokeInHand === null && parts.choke !== null,
    bleed_ohm: build.bleed_ohm === null && parts.xCapacitor !== null,
    indicatorResistor_ohm: build.indicatorResistor_ohm === null && parts.indicator !== null,
  }
}
