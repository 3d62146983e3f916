import { type ExcessResistance, harmonicCount } from '../../converter/harmonics.ts'
import {
  layerFields,
  layOut,
  leakageClosedForm,
  recommendStack,
  resistanceClosedForm,
  type StackLayout,
  selfCapacitance_F,
  type WindingCopper,
  windingCapacitance_F,
  windingCopper,
} from '../../magnetics/stack/index.ts'
import { copperArea_m2 } from '../../magnetics/wire/index.ts'
import type { StackItem, TransformerBuild } from '../build.ts'
import type { PartsUsed } from '../design.ts'
import type { Need } from '../need.ts'
import { pinsAnEnd } from '../pins-an-end.ts'
import { fail, type Result, succeed } from '../result.ts'
import type { CoreFacts } from './core-facts.ts'
import { foilResistances, hasFewFoils } from './foil-resistance.ts'
import { type LeakageStar, leakageStar } from './leakage-star.ts'
import { marginFor } from './margin.ts'
import type { Turns } from './turns.ts'

/** What lies where in a coil, and what follows from that at once. */
export interface LaidCoil {
  readonly layout: StackLayout
  readonly stack: readonly StackItem[]
  readonly margin_m: number
  readonly primaryInHand: number
  readonly secondaryInHand: number
  readonly biasInHand: number
  readonly leakage_H: number
  /** What the winding adds at the drain: its own capacitance, and a third of that to the secondary. */
  readonly drainCapacitance_F: number
  /** Worked out when it is first asked for. */
  readonly star: LeakageStar
}

/** The coil as wound: what lies where, and what it does to the circuit. */
export interface Coil extends LaidCoil {
  readonly primary: WindingCopper
  readonly secondary: WindingCopper
  readonly bias: WindingCopper
  readonly excess: ExcessResistance
}

/** Current density that wires in hand are chosen for, A/m²; common practice, no source. */
const usualDensity_A_per_m2 = 5e6
/** Wire at each end of a winding, from coil to pin. */
const tail_m = 0.04
/** A coil this many times as high as its window is no coil; up to it, the fill is a limit like others. */
const hopelessFill = 5
/** Temperature at which skin and proximity loss is taken. */
const lossTemperature_C = 90

/** Chooses wires in hand, margins and winding order where left open, and lays the coil out. */
export function layCoil(
  need: Need,
  t: TransformerBuild,
  parts: PartsUsed,
  core: CoreFacts,
  turns: Turns,
): Result<LaidCoil> {
  const primary_Arms = turns.peak_A * 0.52
  const secondary_Arms = 1.65 * need.output_A
  const margin_m = t.margin_m ?? marginFor(need, t.insulation)
  const width_m = parts.former.width_m - 2 * margin_m
  const inHand = (wire: PartsUsed['primaryWire'], rms_A: number, most: number): number => {
    const wide = wire.construction === 'foil' ? most : Math.floor(width_m / wire.overall_m / 2)
    const wanted = Math.ceil(rms_A / (usualDensity_A_per_m2 * copperArea_m2(wire)) - 0.1)
    return Math.max(1, Math.min(most, wide, wanted))
  }
  const primaryInHand = t.primaryInHand ?? inHand(parts.primaryWire, primary_Arms, 6)
  const secondaryInHand = t.secondaryInHand ?? inHand(parts.secondaryWire, secondary_Arms, 12)
  const biasInHand = t.biasInHand ?? 1
  const stack: readonly StackItem[] = t.stack ?? usualStack(t, parts, turns, secondaryInHand)
  const problem = stackProblem(stack, turns)
  if (problem) return fail('build.transformer.stack', problem)
  const laid = layOut({
    stack,
    wires: {
      primary: { wire: parts.primaryWire, inHand: primaryInHand },
      secondary: { wire: parts.secondaryWire, inHand: secondaryInHand },
      bias: { wire: parts.biasWire, inHand: biasInHand },
    },
    tape_m: parts.tape.thickness_m,
    former: parts.former,
    core: core.window,
    margin_m,
    tapeLayersInside: t.tapeLayer,
    tail_m,
  })
  if (!laid.ok)
    return {
      ok: false,
      problems: laid.errors.map((e) => ({ path: `build.transformer.${e.field}`, message: e.message })),
    }
  const { layout } = laid
  if (layout.fill > hopelessFill)
    return fail(
      'build.places.core',
      `the coil would be ${Math.round(layout.fill)} times as high as the window of this core: take a larger core, or fewer turns`,
    )
  let star: LeakageStar | null = null
  return succeed({
    layout,
    stack,
    margin_m,
    primaryInHand,
    secondaryInHand,
    biasInHand,
    get star() {
      star ??= leakageStar(layout, turns.primary, turns.secondary)
      return star
    },
    leakage_H: leakageClosedForm(layout, 'primary', 'secondary')!.leakage_H,
    drainCapacitance_F:
      selfCapacitance_F(layout, 'primary') + windingCapacitance_F(layout, 'primary', 'secondary') / 3,
  })
}

/** What a laid coil does to the circuit at a switching frequency. */
export function woundCoil(
  laid: LaidCoil,
  gapPlace: TransformerBuild['gapPlace'],
  _turns: Turns,
  frequency_Hz: number,
): Coil {
  const { layout } = laid
  const gap = gapPlace === 'post' ? { post: 1, outerLegs: 0 } : { post: 0.5, outerLegs: 0.5 }
  return {
    ...laid,
    primary: windingCopper(layout, 'primary', 20)!,
    secondary: windingCopper(layout, 'secondary', 20)!,
    bias: windingCopper(layout, 'bias', 20)!,
    excess: excessResistance(layout, frequency_Hz, gap),
  }
}

/** Lays a coil out and works out what it does to the circuit. */
export function windCoil(
  need: Need,
  t: TransformerBuild,
  parts: PartsUsed,
  core: CoreFacts,
  turns: Turns,
  frequency_Hz: number,
): Result<Coil> {
  const laid = layCoil(need, t, parts, core, turns)
  return laid.ok ? succeed(woundCoil(laid.value, t.gapPlace, turns, frequency_Hz)) : laid
}

type Wound = Extract<StackItem, { kind: 'winding' }>

/** Pins that a split primary, its joint and the bias winding take on one row. */
const pinsWithJoint = 5

/**
 * Pins: primary and bias on row one, secondary on row two. Where row one is short of a pin for the joint of a split
 * primary, the joint stays off the pins. Many wires in hand take neighbouring pins, the start's before the finish's.
 */
function usualStack(
  t: TransformerBuild,
  parts: PartsUsed,
  turns: Turns,
  secondaryInHand: number,
): readonly StackItem[] {
  const { rowOne, rowTwo } = parts.former
  const pin = (n: number): number => Math.max(1, Math.min(rowOne, n))
  const onPin = t.splitPrimary && rowOne >= pinsWithJoint
  const apart = pinsAnEnd(secondaryInHand, copperArea_m2(parts.secondaryWire), rowTwo, 2)
  return recommendStack({
    primary: { name: 'primary', turns: turns.primary, pins: [1, pin(onPin ? 3 : 2)] },
    secondary: {
      name: 'secondary',
      turns: turns.secondary,
      pins: [rowOne + rowTwo, rowOne + Math.max(1, rowTwo - apart)],
    },
    bias: { name: 'bias', turns: turns.bias, pins: [pin(rowOne - 1), rowOne] },
    splitPrimary: t.splitPrimary,
    splitPin: onPin ? 2 : null,
    biasPlace: 'after',
    barrierTapeLayers: t.tapeBarrier,
    outerTapeLayers: t.tapeOuter,
  }) as readonly StackItem[]
}

/** A stack must hold every turn of every winding, no more and no less, and bring every end of one to a pin. */
function stackProblem(stack: readonly StackItem[], turns: Turns): string | null {
  for (const winding of ['primary', 'secondary', 'bias'] as const) {
    let laid = 0
    for (const item of stack) if (item.kind === 'winding' && item.winding === winding) laid += item.turns
    if (laid !== turns[winding])
      return `the stack lays ${laid} turns of the ${winding}, and the winding has ${turns[winding]}`
    const parts = stack.filter((item) => item.kind === 'winding' && item.winding === winding) as Wound[]
    if (parts[0]?.startPin === null || parts.at(-1)?.finishPin === null)
      return `an end of the ${winding} goes to no pin: only a joint between its parts may`
    if (parts.slice(1).some((part, i) => (part.startPin === null) !== (parts[i]!.finishPin === null)))
      return `a joint of the ${winding} is on a pin at one end and off the pins at the other`
  }
  return null
}

/** Harmonics at which resistance is computed; those between follow by interpolation on logarithms. */
const nodes = [1, 4, harmonicCount] as const
const nodeBelow = Array.from({ length: harmonicCount }, (_, i) => {
  const k = i + 1
  let low = 0
  while (low < nodes.length - 2 && nodes[low + 1]! <= k) low++
  return { low, share: Math.log(k / nodes[low]!) / Math.log(nodes[low + 1]! / nodes[low]!) }
})

/** Resistance matrices at the nodes: in closed form, of few foils from the field. */
function matricesAt(
  layout: StackLayout,
  frequency_Hz: number,
  gap: { post: number; outerLegs: number },
): readonly Float64Array[] {
  const frequencies_Hz = nodes.map((k) => k * frequency_Hz)
  const solved = hasFewFoils(layout) ? foilResistances(layout, gap, frequencies_Hz, lossTemperature_C) : null
  if (solved) return solved
  const fields = layerFields(layout, gap)
  return frequencies_Hz.map((f) => resistanceClosedForm(fields, f, lossTemperature_C).resistance_ohm)
}

/** Resistance beyond dc of primary, secondary and between them at each harmonic. */
function excessResistance(
  layout: StackLayout,
  frequency_Hz: number,
  gap: { post: number; outerLegs: number },
): ExcessResistance {
  const primary = layout.windings.indexOf('primary')
  const secondary = layout.windings.indexOf('secondary')
  const count = layout.windings.length
  const primaryDc = windingCopper(layout, 'primary', lossTemperature_C)!.dcResistance_ohm
  const secondaryDc = windingCopper(layout, 'secondary', lossTemperature_C)!.dcResistance_ohm
  const at = matricesAt(layout, frequency_Hz, gap).map((r) => ({
    primary: Math.max(1e-9, r[primary * count + primary]! - primaryDc),
    secondary: Math.max(1e-9, r[secondary * count + secondary]! - secondaryDc),
    mutual: r[primary * count + secondary]!,
  }))
  const between = (pick: 'primary' | 'secondary' | 'mutual'): Float64Array => {
    const spread = new Float64Array(harmonicCount)
    for (let low = 0, k = 0; low < nodes.length - 1; low++) {
      const a = at[low]![pick]
      const b = at[low + 1]![pick]
      const growth = a > 0 && b > 0 ? Math.log(b / a) : null
      for (; k < harmonicCount && nodeBelow[k]!.low === low; k++) {
        const { share } = nodeBelow[k]!
        spread[k] = growth === null ? a + (b - a) * share : a * Math.exp(growth * share)
      }
    }
    return spread
  }
  return {
    primary_ohm: between('primary'),
    secondary_ohm: between('secondary'),
    mutual_ohm: between('mutual'),
  }
}
