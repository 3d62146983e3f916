import type { Part } from '../../parts/part.ts'
import type { Build } from '../../supply/build.ts'
import type { Design } from '../../supply/design.ts'
import type { Need } from '../../supply/need.ts'
import type { Supply } from '../../supply/supply.ts'
import { dividerFor } from '../kit/feedback-kit.ts'

/** A built supply: every choice that copper, core and board hold fixed is fixed at the value that it has. */
export function frozen({ supply, transformer: t, clamp, feedback, ...d }: Design): Supply {
  const { build } = supply
  const transformer: Build['transformer'] = {
    ...build.transformer,
    reflectedVoltage_V: null,
    rippleRatio: null,
    primaryTurns: t.primaryTurns,
    secondaryTurns: t.secondaryTurns,
    biasTurns: t.biasTurns,
    biasVoltage_V: null,
    gap_m: t.gap_m,
    primaryInHand: t.primaryInHand,
    secondaryInHand: t.secondaryInHand,
    biasInHand: t.biasInHand,
    margin_m: t.margin_m,
    stack: [...t.stack],
  }
  return {
    ...supply,
    build: {
      ...build,
      transformer,
      clamp: {
        style: clamp.style,
        voltage_V: clamp.voltage_V,
        resistor_ohm: clamp.resistor_ohm,
        capacitor_F: clamp.capacitor_F,
      },
      chokeTurns: d.choke ? d.chokeTurns : null,
      chokeInHand: d.choke ? d.chokeInHand : null,
      bleed_ohm: d.bleed_ohm > 0 ? d.bleed_ohm : null,
      indicatorResistor_ohm: d.indicatorResistor_ohm > 0 ? d.indicatorResistor_ohm : null,
      feedback: {
        ...build.feedback,
        dividerTop_ohm: feedback.dividerTop_ohm,
        dividerBottom_ohm: feedback.dividerBottom_ohm,
        ledResistor_ohm: feedback.ledResistor_ohm,
        biasResistor_ohm: feedback.biasResistor_ohm,
        compensationResistor_ohm: feedback.compensationResistor_ohm,
        compensationCapacitor_F: feedback.compensationCapacitor_F,
        highFrequencyCapacitor_F: feedback.highFrequencyCapacitor_F,
        softFinishCapacitor_F: feedback.softFinishCapacitor_F,
      },
    },
  }
}

/** The need at another output: trim range and ripple keep their part of the voltage. */
export function needAt(need: Need, output_V: number, output_A: number): Need {
  const ratio = output_V / need.output_V
  const tidy = (value: number) => Number(value.toPrecision(6))
  return {
    ...need,
    output_V,
    output_A,
    trimLow_V: need.trimLow_V === need.output_V ? output_V : tidy(need.trimLow_V * ratio),
    trimHigh_V: need.trimHigh_V === need.output_V ? output_V : tidy(need.trimHigh_V * ratio),
    ripple_Vpp: tidy(need.ripple_Vpp * ratio),
  }
}

/** The built supply at another output, with nothing but its divider changed: its upper arm, which the loop leans on, least. */
export function withDivider(built: Supply, need: Need): Supply {
  const part = (id: string | null): Part | undefined => built.parts.find((p) => p.id === id)
  const reference = part(built.build.places.reference)
  const trimmer = part(built.build.places.trimmer)
  const divided =
    reference?.kind === 'reference'
      ? dividerFor(
          need,
          reference,
          trimmer?.kind === 'trimmer' ? [trimmer] : [],
          built.build.feedback.dividerTop_ohm,
        )
      : null
  return {
    ...built,
    need,
    build: {
      ...built.build,
      feedback: {
        ...built.build.feedback,
        dividerTop_ohm: divided?.top_ohm ?? null,
        dividerBottom_ohm: divided?.bottom_ohm ?? null,
      },
    },
  }
}
