import {
  answerBias,
  feedbackPathFrom,
  type Load,
  type LoopCorner,
  modulatorOf,
  type NetworkAnswer,
  type NetworkFailure,
  powerStage,
  suggestNetwork,
} from '../loop/index.ts'
import { copperResistanceRatio } from '../magnetics/wire/index.ts'
import type { ConditionId } from './condition.ts'
import type { Design } from './design.ts'
import { at, type Evaluation, type Running } from './evaluation.ts'
import type { Need } from './need.ts'
import { chokeInductance_H } from './resolve/choke.ts'
import { pinCurrents } from './resolve/feedback.ts'

/** Conditions at which the loop is judged: both ends of the input, loaded and nearly not. */
const loopConditions: readonly ConditionId[] = ['minimum-100', 'maximum-100', 'minimum-10', 'maximum-10']

/** Internal resistance of a battery on charge; typical of a few ampere-hours, no source. */
const battery_ohm = 0.1

const loadOf: Readonly<Record<Need['feeds'], Load>> = {
  resistive: { kind: 'resistor' },
  electronics: { kind: 'constant-current' },
  charging: { kind: 'battery', resistance_ohm: battery_ohm },
}

/**
 * Small-signal corners of an evaluated supply for `cornerMargins`: lowest and highest input, full and tenth load, each
 * with the strongest and with the weakest, aged optocoupler. A condition at which the supply does not run is left out.
 */
export function loopCorners(evaluation: Evaluation): LoopCorner[] {
  const { design } = evaluation
  const ratio = design.parts.optocoupler.transferRatio
  const weak = ratio.minimum * design.parts.optocoupler.ageing
  return loopConditions.flatMap((id) => {
    const running = at(evaluation, id)
    if (!running) return []
    return [
      cornerAt(design, running, ratio.maximum, 'strong optocoupler'),
      cornerAt(design, running, weak, 'weak, aged optocoupler'),
    ].filter((corner) => corner !== null)
  })
}

function cornerAt(
  d: Design,
  { condition, readings: r }: Running,
  transferRatio: number,
  opto: string,
): LoopCorner | null {
  const { parts, transformer: t, supply, feedback } = d
  const hot = copperResistanceRatio(20, r.transformer_C)
  const stage = powerStage(
    {
      bulk_V: r.bulkMean_V,
      turnsRatio: t.turnsRatio,
      primaryInductance_H: r.primaryInductance_H,
      frequency_Hz: parts.switcher.frequency_Hz.typical,
      output_V: d.need.output_V,
      output_A: Math.max(1e-3, r.output_A),
      rectifierDrop_V: parts.rectifier.drop_V,
      primaryResistance_ohm: r.onResistance_ohm + t.primaryResistance20_ohm * hot,
      secondaryResistance_ohm: parts.rectifier.slope_ohm + t.secondaryResistance20_ohm * hot,
      filter: {
        capacitance_F: parts.outputCapacitor.capacitance_F * supply.build.outputCount,
        capacitorResistance_ohm: parts.outputCapacitor.resistance_ohm / supply.build.outputCount,
        second:
          d.choke && parts.secondCapacitor
            ? {
                inductance_H: chokeInductance_H(d.choke, r.output_A),
                resistance_ohm: d.choke.resistance20_ohm * hot,
                capacitance_F: parts.secondCapacitor.capacitance_F * supply.build.secondCount,
                capacitorResistance_ohm: parts.secondCapacitor.resistance_ohm / supply.build.secondCount,
              }
            : null,
      },
      load: loadOf[d.need.feeds],
    },
    modulatorOf(parts.switcher),
  )
  if (!stage.ok) return null
  const drive =
    parts.switcher.control.style === 'voltage-mode'
      ? r.duty / parts.switcher.maximumDuty.typical
      : r.primaryPeak_A / parts.switcher.currentLimit_A.typical
  return {
    name: `${condition.label}, ${opto}`,
    stage,
    path: feedbackPathFrom(feedback, parts, {
      transferRatio,
      drive,
      senseTap: feedback.senseAfterChoke && d.choke ? 'load' : 'first',
      ledTap: feedback.ledFeedAfterChoke && d.choke ? 'load' : 'first',
    }),
  }
}

/**
 * LED resistor and compensation from preferred values for a crossover near 1 kHz and 60° of margin, judged at every
 * corner. Takes milliseconds: for a proposal or on request, not for every edit.
 */
export function suggestCompensation(evaluation: Evaluation): NetworkAnswer | NetworkFailure {
  const corners = loopCorners(evaluation)
  if (corners.length === 0)
    return { ok: false, code: 'no-network', message: 'the supply runs at none of the corners of its loop' }
  const { need, parts, feedback } = evaluation.design
  const { optocoupler, reference } = parts
  const pin = pinCurrents(parts.switcher.control)
  const bias = answerBias({
    output_V: need.output_V,
    referenceVoltage_V: reference.voltage_V.typical,
    cathodeMinimum_V: reference.minimumCathode_V,
    cathodeMinimum_A: reference.minimumCathode_A,
    cathodeMaximum_A: reference.maximumCathode_A,
    ledDrop_V: optocoupler.ledDrop_V,
    ledMaximum_A: optocoupler.ledMaximum_A,
    transferRatio: optocoupler.transferRatio,
    ageing: optocoupler.ageing,
    pinZeroPower_A: pin.zero_A,
    pinFullPower_A: pin.full_A,
    ledResistor_ohm: feedback.ledResistor_ohm,
    biasResistor_ohm: feedback.biasResistor_ohm,
  })
  return suggestNetwork({
    corners,
    crossover_Hz: 1000,
    phaseMargin_deg: 60,
    ledResistorMinimum_ohm: Math.max(1, bias.ledResistorMinimum_ohm),
    // Room for the trim range and for what the closed form leaves out.
    ledResistorMaximum_ohm: Math.max(1, 0.9 * bias.ledResistorMaximum_ohm),
  })
}
