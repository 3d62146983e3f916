import type { Design, FeedbackDesign } from '../design.ts'
import { evaluate } from '../evaluate/evaluate.ts'
import { chooseNetwork } from '../loop/choose-network.ts'

/**
 * The design with compensation that the builder left open suited to its loop. Readings do not depend on it, and
 * looking through networks at every corner takes milliseconds, so it is done when one of its values is first read.
 */
export function withOpenNetwork(design: Design): Design {
  const { chosen } = design
  if (!chosen.compensationResistor_ohm && !chosen.compensationCapacitor_F && !chosen.highFrequencyCapacitor_F)
    return design
  let found: ReturnType<typeof chooseNetwork> | null = null
  const network = () => {
    found ??= chooseNetwork(design, evaluate(design).conditions)
    return found
  }
  const feedback: FeedbackDesign = {
    ...design.feedback,
    get compensationResistor_ohm() {
      return network().compensationResistor_ohm
    },
    get compensationCapacitor_F() {
      return network().compensationCapacitor_F
    },
    get highFrequencyCapacitor_F() {
      return network().highFrequencyCapacitor_F
    },
  }
  return { ...design, feedback }
}
