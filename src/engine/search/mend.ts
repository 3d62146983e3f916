import type { Assessment } from '../limits/index.ts'
import type { Capacitor, Drawer } from '../parts/part.ts'
import { seriesNearest } from '../quantity/e-series.ts'
import type { Build, Place, Places } from '../supply/build.ts'
import { can_H, track_H } from '../supply/resolve/secondary-path.ts'
import type { Supply } from '../supply/supply.ts'
import { held } from './pick.ts'

type Mend = (build: Build, drawer: Drawer, assessment: Assessment) => Build | null

const withPlace = (build: Build, place: Place, id: string): Build => ({
  ...build,
  places: { ...build.places, [place]: id } as Places,
})

/** Part of the way to the limit of a junction that a heatsink is chosen for. */
const heatUse = 0.8

/** The least heatsink that keeps a junction cool enough; the best of the drawer where none does, unless it is in use. */
const heatsinkFor =
  (place: 'switcherHeatsink' | 'rectifierHeatsink'): Mend =>
  (build, drawer, { evaluation }) => {
    const { parts, need } = evaluation.design
    const part = place === 'switcherHeatsink' ? parts.switcher : parts.rectifier
    const power = place === 'switcherHeatsink' ? 'switch_W' : 'rectifier_W'
    let most_W = 0
    for (const c of evaluation.conditions)
      if (c.runs && c.condition.kind === 'steady') most_W = Math.max(most_W, c.readings[power])
    const hottest_C =
      part.kind === 'switcher'
        ? Math.min(part.thermalShutdown_C.minimum, part.maximumJunction_C)
        : part.maximumJunction_C
    const rise_K = heatUse * (hottest_C - 15 - need.ambient_C)
    const allowed = rise_K / Math.max(0.01, most_W) - part.junctionToCase_K_per_W - 0.5
    const sinks = held(drawer, 'heatsink').sort((a, b) => b.toAmbient_K_per_W - a.toAmbient_K_per_W)
    const sink = sinks.find((s) => s.toAmbient_K_per_W <= allowed) ?? sinks.at(-1)
    return sink && sink.id !== build.places[place] ? withPlace(build, place, sink.id) : null
  }

/** The next larger bulk capacitor, or one more of the same. */
const moreBulk: Mend = (build, drawer) => {
  const bulk = held(drawer, 'capacitor')
  const now = bulk.find((c) => c.id === build.places.bulkCapacitor)
  if (!now) return null
  const larger = nextLarger(bulk, now)
  if (larger && build.bulkCount === 1) return withPlace(build, 'bulkCapacitor', larger.id)
  return build.bulkCount < 4 ? { ...build, bulkCount: build.bulkCount + 1 } : null
}

const nextLarger = (capacitors: readonly Capacitor[], now: Capacitor): Capacitor | null =>
  capacitors
    .filter(
      (c) =>
        c.technology === now.technology &&
        c.voltage_V === now.voltage_V &&
        c.capacitance_F > now.capacitance_F,
    )
    .sort((a, b) => a.capacitance_F - b.capacitance_F)[0] ?? null

/** As many more output capacitors as the failing limit asks for, at least one. */
const moreOutput: Mend = (build, _drawer, { limits }) => {
  const ripple = limits.find((l) => l.id === 'output-capacitor.ripple-current')
  const wanted = Math.ceil(build.outputCount * (ripple ? ripple.reading / ripple.rating : 1))
  const count = Math.max(build.outputCount + 1, wanted)
  return count <= 10 ? { ...build, outputCount: count } : null
}

/** A lower or higher reflected voltage in steps of 8 %, between 45 V and 140 V. */
const reflect =
  (factor: number): Mend =>
  (build, _drawer, { evaluation }) => {
    const aimed = evaluation.design.transformer.aimedReflectedVoltage_V * factor
    if (aimed < 45 || aimed > 140) return null
    return { ...build, transformer: { ...build.transformer, reflectedVoltage_V: aimed } }
  }

/** A higher reflected voltage where drain and duty have room for it. */
const reflectWithRoom: Mend = (build, drawer, assessment) =>
  assessment.limits.some((l) => /^switcher\.(drain-voltage|drain-margin|duty)$/.test(l.id) && l.margin < 0.08)
    ? null
    : reflect(1.08)(build, drawer, assessment)

/** Less ripple in the primary current: a lower peak for the same power. */
const lessRipple: Mend = (build, _drawer, { evaluation }) => {
  const ratio = evaluation.design.transformer.rippleRatio * 0.9
  return ratio < 0.25 ? null : { ...build, transformer: { ...build.transformer, rippleRatio: ratio } }
}

const lowerClamp: Mend = (build, _drawer, { evaluation }) => {
  const voltage_V = evaluation.design.clamp.voltage_V * 0.93
  const least_V = 1.32 * evaluation.design.transformer.reflectedVoltage_V
  return voltage_V < least_V ? null : { ...build, clamp: { ...build.clamp, voltage_V } }
}

const splitPrimary: Mend = (build) =>
  build.transformer.splitPrimary
    ? null
    : { ...build, transformer: { ...build.transformer, splitPrimary: true } }

const plainPrimary: Mend = (build) =>
  build.transformer.splitPrimary
    ? { ...build, transformer: { ...build.transformer, splitPrimary: false } }
    : null

/** One wire fewer in hand. */
const fewerHands =
  (winding: 'primaryInHand' | 'secondaryInHand'): Mend =>
  (build, _drawer, { evaluation }) => {
    const count = evaluation.design.transformer[winding] - 1
    return count < 1 ? null : { ...build, transformer: { ...build.transformer, [winding]: count } }
  }

/** Room in the window that one more wire in hand needs. */
const roomForWire = 0.04

/** One wire more in hand, while the window has room. */
const moreHands =
  (winding: 'primaryInHand' | 'secondaryInHand'): Mend =>
  (build, _drawer, { evaluation, limits }) => {
    const filled = limits.some((l) => /^transformer\.(hand-fit|fit)$/.test(l.id) && l.margin < roomForWire)
    const count = evaluation.design.transformer[winding] + 1
    return filled ? null : { ...build, transformer: { ...build.transformer, [winding]: count } }
  }

const largerPart =
  (place: 'rectifier' | 'fuse' | 'ntc' | 'bridge'): Mend =>
  (build, drawer) => {
    const id = build.places[place]
    if (place === 'bridge') {
      const bridges = held(drawer, 'bridge')
      const now = bridges.find((b) => b.id === id)
      const next = bridges
        .filter((b) => now && b.surge_A > now.surge_A && b.reverse_V >= now.reverse_V)
        .sort((a, b) => a.surge_A - b.surge_A)[0]
      return next ? withPlace(build, place, next.id) : null
    }
    if (place === 'rectifier') {
      const diodes = held(drawer, 'diode')
      const now = diodes.find((d) => d.id === id)
      const next = diodes
        .filter((d) => now && d.reverse_V > now.reverse_V && d.average_A >= now.average_A && d.drop_V < 1)
        .sort((a, b) => a.reverse_V - b.reverse_V || a.drop_V - b.drop_V)[0]
      return next ? withPlace(build, place, next.id) : null
    }
    if (place === 'fuse') {
      const fuses = held(drawer, 'fuse').filter((f) => f.speed === 'slow')
      const now = fuses.find((f) => f.id === id)
      const next = fuses
        .filter((f) => now && f.rated_A > now.rated_A)
        .sort((a, b) => a.rated_A - b.rated_A)[0]
      return next ? withPlace(build, place, next.id) : null
    }
    const ntcs = held(drawer, 'ntc')
    const now = ntcs.find((n) => n.id === id)
    const next = ntcs
      .filter((n) => now && n.maximumCapacitance_F > now.maximumCapacitance_F)
      .sort((a, b) => a.maximumCapacitance_F - b.maximumCapacitance_F)[0]
    return next ? withPlace(build, place, next.id) : null
  }

/** One secondary turn more, and primary turns with it: less flux. */
const moreTurns: Mend = (build, _drawer, { evaluation }) => {
  const secondaryTurns = evaluation.design.transformer.secondaryTurns + 1
  return { ...build, transformer: { ...build.transformer, secondaryTurns } }
}

/** One bias turn less, while what is left keeps the chip supplied at the lowest output. */
const fewerBiasTurns: Mend = (build, _drawer, { evaluation: { design } }) => {
  const { transformer: t, need, parts } = design
  const biasTurns = t.biasTurns - 1
  const drop_V = parts.biasDiode.drop_V
  const left_V =
    (((design.biasVoltage_V + drop_V) * biasTurns) / t.biasTurns) * (need.trimLow_V / need.output_V)
  return left_V - drop_V > biasRoom * parts.switcher.biasVoltage_V.minimum
    ? { ...build, transformer: { ...build.transformer, biasTurns } }
    : null
}

/** Room over the least bias voltage for its ripple. */
const biasRoom = 1.03

/** Capacitance of a snubber over that of the junction; common practice, no source. */
const snubberShare = 3.5

/**
 * A snubber across the rectifier, resistor of the ring's own impedance, where it burns no more than a part of the
 * output: C V² f. Null where there is one.
 */
const fitSnubber =
  (most: number): Mend =>
  (build, _drawer, { evaluation: { design, conditions } }) => {
    const { parts, transformer: t, need } = design
    if (build.snubber !== null || parts.rectifier.junctionCapacitance_F <= 0) return null
    const leakage_H = t.leakage_H.typical / t.turnsRatio ** 2 + track_H + can_H / build.outputCount
    const resistor_ohm = seriesNearest(Math.sqrt(leakage_H / parts.rectifier.junctionCapacitance_F), 'E12')
    const capacitor_F = seriesNearest(snubberShare * parts.rectifier.junctionCapacitance_F, 'E12')
    let reverse_V = 0
    for (const c of conditions)
      if (c.runs && c.condition.kind === 'steady')
        reverse_V = Math.max(reverse_V, c.readings.rectifierReverse_V)
    const loss_W = capacitor_F * reverse_V * reverse_V * parts.switcher.frequency_Hz.typical
    return loss_W > most * need.output_V * need.output_A
      ? null
      : { ...build, snubber: { resistor_ohm, capacitor_F } }
  }

/** Twice the capacitance and less resistance, up to four times the usual snubber: for a diode that gives back stored charge. */
const largerSnubber: Mend = (build, _drawer, { evaluation: { design } }) => {
  if (build.snubber === null) return null
  const capacitor_F = seriesNearest(2 * build.snubber.capacitor_F, 'E12')
  const most_F = 4.2 * snubberShare * design.parts.rectifier.junctionCapacitance_F
  const resistor_ohm = seriesNearest(0.75 * build.snubber.resistor_ohm, 'E12')
  return capacitor_F > most_F ? null : { ...build, snubber: { resistor_ohm, capacitor_F } }
}

/** What to try, in order, when a limit does not hold. */
const mends: Readonly<Record<string, readonly Mend[]>> = {
  'core.saturation': [moreTurns],
  'supply.runs': [moreBulk],
  'supply.power': [moreBulk, lessRipple],
  'switcher.peak-current': [lessRipple, reflectWithRoom, moreBulk, reflect(1.08)],
  'switcher.duty': [moreBulk, reflect(0.92)],
  'switcher.slope': [reflect(0.92)],
  'switcher.drain-voltage': [lowerClamp, reflect(0.92)],
  'switcher.drain-margin': [lowerClamp, reflect(0.92)],
  'switcher.bias-high': [fewerBiasTurns],
  'bias-capacitor.voltage': [fewerBiasTurns],
  'switcher.junction': [heatsinkFor('switcherHeatsink')],
  'switcher.case': [heatsinkFor('switcherHeatsink')],
  'rectifier.case': [heatsinkFor('rectifierHeatsink')],
  'rectifier.surge': [largerPart('rectifier')],
  'bridge.melting': [largerPart('bridge')],
  'bridge.mains-surge': [moreBulk],
  'switcher.mains-surge': [moreBulk, lowerClamp],
  'bulk.valley': [moreBulk],
  'bulk.ripple-current': [moreBulk],
  'rectifier.reverse': [largerPart('rectifier')],
  'rectifier.reverse-margin': [fitSnubber(0.02), largerPart('rectifier'), fitSnubber(1), largerSnubber],
  'rectifier.junction': [heatsinkFor('rectifierHeatsink')],
  'output-capacitor.ripple-current': [moreOutput],
  'output-capacitor.life': [moreOutput],
  'output.ripple': [moreOutput],
  'output.hold-up': [moreBulk],
  'transformer.fit': [fewerHands('secondaryInHand'), fewerHands('primaryInHand')],
  'transformer.hand-fit': [fewerHands('secondaryInHand'), fewerHands('primaryInHand')],
  'transformer.pin-wires': [fewerHands('secondaryInHand'), fewerHands('primaryInHand')],
  'primary.density': [moreHands('primaryInHand')],
  'secondary.density': [moreHands('secondaryInHand')],
  'transformer.pins': [plainPrimary],
  'transformer.leakage': [splitPrimary],
  'clamp.loss': [splitPrimary],
  'bridge.surge': [largerPart('bridge')],
  'bridge.warm-restart': [largerPart('bridge')],
  'fuse.inrush': [largerPart('fuse')],
  'fuse.current': [largerPart('fuse')],
  'ntc.capacitance': [largerPart('ntc')],
}

/** Limits that only another core or switcher mends. */
const bound = /^(core|transformer|primary|secondary|switcher)\./

/** True of a limit that no other core, switcher or larger part mends: the drawer or the need must change. */
export const beyondMending = (id: string): boolean => !(id in mends) && !bound.test(id)

/**
 * A build in which the weakest limit that can be mended is. Null where all hold, where nothing of the drawer mends any,
 * or where one calls for another core or switcher.
 */
export function repair(supply: Supply, assessment: Assessment, drawer: Drawer): Build | null {
  const failing = assessment.limits.filter((limit) => !limit.holds)
  if (failing.some((limit) => bound.test(limit.id) && !(limit.id in mends))) return null
  for (const limit of failing)
    for (const mend of mends[limit.id] ?? []) {
      const mended = mend(supply.build, drawer, assessment)
      if (mended) return mended
    }
  return null
}
