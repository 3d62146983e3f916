import { inductanceForRipple_H } from '../../converter/turns.ts'
import { insideRise, surfaceFactor } from '../../heat/index.ts'
import { saturationFlux } from '../../magnetics/material/index.ts'
import type { Material, Switcher } from '../../parts/part.ts'
import type { Build, TransformerBuild } from '../../supply/build.ts'
import type { PartsUsed } from '../../supply/design.ts'
import { openTransformer } from '../../supply/open-transformer.ts'
import { type CoreFacts, coreFacts } from '../../supply/resolve/core-facts.ts'
import { type Estimate, estimate } from '../../supply/resolve/estimate.ts'
import { ferriteFacts } from '../../supply/resolve/ferrite.ts'
import { preferredNearest } from '../../supply/resolve/preferred.ts'
import { track_H } from '../../supply/resolve/secondary-path.ts'
import { chooseTurns, type Turns } from '../../supply/resolve/turns.ts'
import type { Surroundings } from '../first-places.ts'
import type { Block, Space, StackChoice } from './space.ts'
import { materialFor } from './space.ts'

/** All of one candidate but its copper: turns, inductance, switcher, rectifier, heatsinks and what surrounds them. */
export interface Frame {
  readonly around: number
  readonly rectifier: number
  readonly ripple: number
  /** Reflected voltage aimed at; whole turns meet it within a few per cent. */
  readonly aimed_V: number
  readonly primary: number
  readonly secondary: number
  readonly turns: Turns
  /** Stacks that these turns are wound in: how the primary lies decides the turns of the bias. */
  readonly stacks: readonly StackChoice[]
  readonly parts: PartsUsed
  readonly estimate: Estimate
}

/** Heatsinks of a candidate; null where free air does. */
export interface Sinks {
  readonly switcher: string | null
  readonly rectifier: string | null
}

/** What is the same in all frames of a block. */
export interface Ground {
  readonly block: Block
  readonly switcher: Switcher
  readonly material: Material
  readonly facts: CoreFacts
  readonly saturation_T: number
}

/** Facts of a block; null where core or material cannot be worked with, which `whyNot` explains. */
export function groundOf(space: Space, block: Block): Ground | null {
  const switcher = space.switchers[block.switcher]!
  const material = materialFor(space, switcher)
  const facts = coreFacts(space.cores[block.core]!.core)
  const ferrite = ferriteFacts(material)
  if (!facts.ok || !ferrite.ok) return null
  return {
    block,
    switcher,
    material,
    facts: facts.value,
    saturation_T: saturationFlux(ferrite.value.curve, 100),
  }
}

/** Most by which tolerances of gap and ferrite raise an inductance, taken for the fewest turns worth a try. */
const inductanceOver = 1.06
/** Junctions are to stay this far below their greatest, as the limits ask, K. */
const room_K = 10
/** Room of a heatsink over what its junction needs. */
const heatUse = 0.75

const partsKnown = new WeakMap<Ground, Map<number, PartsUsed>>()

/** Parts that the choices of turns look at. */
function partsOf(space: Space, ground: Ground, around: number, rectifier: number): PartsUsed {
  let known = partsKnown.get(ground)
  if (!known) {
    known = new Map()
    partsKnown.set(ground, known)
  }
  const key = around * 1000 + rectifier
  let parts = known.get(key)
  if (!parts) {
    parts = workOutParts(space, ground, around, rectifier)
    known.set(key, parts)
  }
  return parts
}

const aroundKnown = new WeakMap<Surroundings, Partial<PartsUsed>>()

function workOutParts(space: Space, ground: Ground, around: number, rectifier: number): PartsUsed {
  const surroundings = space.around[around]!
  let used = aroundKnown.get(surroundings)
  if (!used) {
    const at = (id: string | null) => (id === null ? null : space.parts.get(id)!)
    used = Object.fromEntries(Object.entries(surroundings.places).map(([place, id]) => [place, at(id)]))
    aroundKnown.set(surroundings, used)
  }
  const { core, former, tape } = space.cores[ground.block.core]!
  return {
    ...used,
    switcher: ground.switcher,
    material: ground.material,
    core,
    former,
    tape: space.parts.get(tape),
    primaryWire: space.stacks[0]!.primaryWires[0],
    secondaryWire: space.stacks[0]!.secondaryWires[0],
    rectifier: space.rectifiers[rectifier],
  } as PartsUsed
}

const estimates = new WeakMap<PartsUsed, Estimate>()

/** The estimate of a rectifier in its surroundings, worked out once for each block. */
function estimateOf(space: Space, parts: PartsUsed, around: number): Estimate {
  let found = estimates.get(parts)
  if (!found) {
    const { bulkCount } = space.around[around]!
    found = estimate(space.need, parts, parts.bulkCapacitor.capacitance_F * bulkCount)
    estimates.set(parts, found)
  }
  return found
}

/** A ring with a snubber reaches at least and at most this much of the plain reverse voltage, as rectifiers go. */
const leastRing = 1.15
const mostRing = 1.7

/** By this part of the fewest turns more of them are tried, one at the least. */
const turnStep = 0.07

/** Every frame of a block, in a fixed order. */
export function* framesOf(space: Space, ground: Ground): Generator<Frame> {
  const { grid } = space.options
  for (let around = 0; around < space.around.length; around++)
    for (const ripple of grid.ripples)
      for (const aimed_V of grid.reflected_V)
        for (let rectifier = 0; rectifier < space.rectifiers.length; rectifier++) {
          const diode = space.rectifiers[rectifier]!
          const parts = partsOf(space, ground, around, rectifier)
          const e = estimateOf(space, parts, around)
          const out_V = space.need.output_V + e.rectifierDrop_V
          const plain_V = space.need.output_V + (e.bulkMaximum_V * out_V) / aimed_V
          // Turns are whole: what is aimed at is met within a few per cent.
          if (1.1 * diode.reverse_V < plain_V * leastRing) continue
          const first = fewestSecondary(space, ground, e, ripple, aimed_V)
          const step = Math.max(1, Math.round(turnStep * first))
          for (let more = 0; more <= grid.moreTurns; more++) {
            const secondary = first + more * step
            if (secondary > 500) break
            const primary = Math.max(1, Math.min(2000, Math.round((secondary * aimed_V) / out_V)))
            const common = { around, rectifier, ripple, aimed_V, primary, secondary, parts, estimate: e }
            for (const wound of turnsOf(space, ground, common)) yield { ...common, ...wound }
          }
          if (plain_V * mostRing <= diode.reverse_V) break
        }
}

/** Turns of the bias for each way that the primary may lie; all stacks at once where they are the same. */
function turnsOf(
  space: Space,
  { facts, saturation_T }: Ground,
  { ripple, primary, secondary, parts, estimate: e }: Omit<Frame, 'turns' | 'stacks'>,
): Pick<Frame, 'turns' | 'stacks'>[] {
  const open = fixedTransformer(ripple, primary, secondary)
  const wound = stacksBySplit(space).map(({ splitPrimary, stacks }) => ({
    stacks,
    turns: chooseTurns(
      space.need,
      { transformer: { ...open, splitPrimary } } as Build,
      parts,
      facts,
      saturation_T,
      e,
    ),
  }))
  const [first, second] = wound
  if (first && second?.turns.bias === first.turns.bias) return [{ turns: first.turns, stacks: space.stacks }]
  return wound
}

interface Split {
  readonly splitPrimary: boolean
  readonly stacks: readonly StackChoice[]
}

const splitsKnown = new WeakMap<Space, readonly Split[]>()

function stacksBySplit(space: Space): readonly Split[] {
  let known = splitsKnown.get(space)
  if (!known) {
    known = [true, false]
      .map((splitPrimary) => ({
        splitPrimary,
        stacks: space.stacks.filter((s) => s.splitPrimary === splitPrimary),
      }))
      .filter(({ stacks }) => stacks.length > 0)
    splitsKnown.set(space, known)
  }
  return known
}

/** Fewest secondary turns with which the core could stand the greatest current limit. */
function fewestSecondary(space: Space, g: Ground, e: Estimate, ripple: number, aimed_V: number): number {
  const on_V = Math.max(10, e.valley_V - 4)
  const inductance_H = inductanceForRipple_H(on_V, aimed_V, e.stage_W / e.valley_V, e.frequency_Hz, ripple)
  const peak_A =
    g.switcher.currentLimit_A.maximum + (e.bulkMaximum_V * g.switcher.currentLimitDelay_s) / inductance_H
  const fewest =
    (inductanceOver * inductance_H * peak_A) / (g.saturation_T * g.facts.geometry.effective.minimumArea_m2)
  const out_V = space.need.output_V + e.rectifierDrop_V
  return Math.max(1, Math.ceil((fewest * out_V) / aimed_V - 0.02))
}

/** What a candidate's transformer fixes, the rest left to the tool. */
export const fixedTransformer = (
  rippleRatio: number,
  primaryTurns: number,
  secondaryTurns: number,
): TransformerBuild => ({ ...openTransformer, rippleRatio, primaryTurns, secondaryTurns })

/** Capacitance of a snubber over that of the junction; common practice, no source. */
const snubberShare = 3.5
/** A snubber may burn this part of the output. */
const snubberLoss = 0.03
/** Leakage over inductance that a snubber's resistor is chosen for. */
const usualLeakage = 0.015

const snubbersKnown = new WeakMap<Frame, Build['snubber']>()

/**
 * A snubber across the rectifier: three to four times the junction's capacitance, and the impedance of its ring with a
 * usual leakage; none where the junction is too small to tell or the snubber would burn too much.
 */
export function snubberOf({ need }: Space, frame: Frame): Build['snubber'] {
  const before = snubbersKnown.get(frame)
  if (before !== undefined) return before
  const { parts, turns, estimate: e } = frame
  const junction_F = parts.rectifier.junctionCapacitance_F
  let snubber: Build['snubber'] = null
  if (junction_F > 1e-12) {
    const capacitor_F = preferredNearest(snubberShare * junction_F, 'E12')
    const leakage_H = (usualLeakage * turns.inductance_H) / turns.turnsRatio ** 2 + track_H + 5e-9
    const reverse_V = need.output_V + e.bulkMaximum_V / turns.turnsRatio
    if (capacitor_F * reverse_V ** 2 * e.frequency_Hz <= snubberLoss * need.output_V * need.output_A)
      snubber = { resistor_ohm: preferredNearest(Math.sqrt(leakage_H / junction_F), 'E12'), capacitor_F }
  }
  snubbersKnown.set(frame, snubber)
  return snubber
}

const sinksKnown = new WeakMap<Frame, Sinks>()

/** The least heatsinks for the heat that the estimate gives: none where free air does, the best where none will do. */
export function sinksOf(space: Space, frame: Frame): Sinks {
  let sinks = sinksKnown.get(frame)
  if (!sinks) {
    sinks = chooseSinks(space, frame)
    sinksKnown.set(frame, sinks)
  }
  return sinks
}

function chooseSinks(space: Space, { parts, turns: t, estimate: e }: Frame): Sinks {
  const { switcher, rectifier } = parts
  const { need } = space
  const surface_m2 = Math.max(0.012, 0.02 * ((need.output_V * need.output_A) / 25) ** (2 / 3))
  const inside_C = need.ambient_C + insideRise(need.cooling, 0.2 * e.stage_W, surface_m2)
  const duty = t.reflectedVoltage_V / (t.reflectedVoltage_V + e.valley_V)
  const rms_A = t.peak_A * Math.sqrt((duty * (3 - 3 * t.rippleRatio + t.rippleRatio ** 2)) / 3)
  const high_V = e.bulkMaximum_V + (t.rippleRatio < 1 ? t.reflectedVoltage_V : 0)
  const capacitive_W = 0.5 * (switcher.outputCapacitance_F + 40e-12) * high_V ** 2 * e.frequency_Hz
  const switching_W = 0.5 * 30e-9 * e.frequency_Hz * high_V * t.peak_A
  const switch_W = Math.max(
    rms_A ** 2 * switcher.onResistance100_ohm + 0.4 * switching_W,
    0.3 * rms_A ** 2 * switcher.onResistance100_ohm + capacitive_W + switching_W,
  )
  const hottest_C = Math.min(switcher.thermalShutdown_C.minimum, switcher.maximumJunction_C) - room_K
  const a = need.output_A
  const reverse_V = need.output_V + e.bulkMaximum_V / t.turnsRatio
  const rectifier_W =
    rectifier.drop_V * a +
    rectifier.slope_ohm * (1.7 * a) ** 2 +
    0.5 *
      e.frequency_Hz *
      reverse_V *
      (rectifier.junctionCapacitance_F * reverse_V + rectifier.recovery_s * a)
  const sink = (
    power_W: number,
    limit_C: number,
    part: Pick<Switcher, 'junctionToCase_K_per_W' | 'junctionToAmbient_K_per_W'>,
  ): string | null => {
    const allowed = (heatUse * (limit_C - inside_C)) / Math.max(0.01, power_W) / surfaceFactor[need.cooling]
    if (part.junctionToAmbient_K_per_W <= allowed) return null
    const room = allowed - part.junctionToCase_K_per_W - 0.5
    return (space.sinks.find((s) => s.toAmbient_K_per_W <= room) ?? space.sinks.at(-1))?.id ?? null
  }
  return {
    switcher: sink(switch_W, hottest_C, switcher),
    rectifier: sink(rectifier_W, rectifier.maximumJunction_C - room_K, rectifier),
  }
}
