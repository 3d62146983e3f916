import { type Assessment, assess, withLoopLimits } from '../limits/index.ts'
import type { Limit } from '../limits/limit.ts'
import { suggestFor } from '../supply/loop/index.ts'
import type { Supply } from '../supply/supply.ts'

/** A supply with its verdict. */
export interface Judged {
  readonly supply: Supply
  readonly assessment: Assessment
}

/** Crossovers that a proposal aims at, Hz, in turn: what hand-built supplies settle for; common practice, no source. */
const aims_Hz = [1000, 500, 2500] as const
/** No more output capacitors than this, whatever they would do for ripple. */
const mostInParallel = 10
/** A ripple this far over what was asked is not mended by capacitors. */
const hopelessRipple = 2

/**
 * A supply whose other limits hold, finished for its loop: the network round the reference for each crossover in turn,
 * and output capacitors for the ripple that comes through, until all holds. The nearest to it where nothing does.
 */
export function finish(supply: Supply, assessment: Assessment): Judged {
  let best: Judged = { supply, assessment: withLoopLimits(assessment) }
  for (let step = 0; step < 2 && !best.assessment.holds; step++) {
    const from = best
    for (const aim_Hz of aims_Hz) {
      const suited = withNetwork(from, aim_Hz)
      if (suited && shortOf(suited.assessment) < shortOf(best.assessment)) best = suited
      if (best.assessment.holds) return best
      if (rippleOf(best) > hopelessRipple) return best
    }
    const more = withMoreOutput(best)
    if (more === null || shortOf(more.assessment) >= shortOf(best.assessment)) return best
    best = more
  }
  return best
}

/** How far a supply is from holding: how many limits do not hold, and how far the weakest is short. */
export const shortOf = ({ limits, givesFirst }: Assessment): number =>
  limits.filter((limit) => !limit.holds).length - 0.09 * Math.min(0, givesFirst.margin)

/** Ripple at the load over what was asked; 0 where it does not matter. */
const rippleOf = ({ assessment }: Judged): number => {
  const ripple = assessment.limits.find((limit: Limit) => limit.id === 'output.ripple-all')
  return ripple ? ripple.reading / ripple.rating : 0
}

function judged(supply: Supply): Judged | null {
  const fast = assess(supply)
  return fast.ok ? { supply, assessment: withLoopLimits(fast.value) } : null
}

function withNetwork({ supply, assessment }: Judged, crossover_Hz: number): Judged | null {
  const { design, conditions } = assessment.evaluation
  const answer = suggestFor(design, conditions, {}, { crossover_Hz })
  if (!answer.ok) return null
  const feedback = { ...supply.build.feedback, ...answer.network }
  return judged({ ...supply, build: { ...supply.build, feedback } })
}

/** As many more output capacitors as the ripple asks for, one at least, with the network open again. */
function withMoreOutput(now: Judged): Judged | null {
  const { supply } = now
  const { outputCount } = supply.build
  const wanted = Math.max(outputCount + 1, Math.ceil(outputCount * Math.min(2, rippleOf(now))))
  if (wanted > mostInParallel) return null
  return judged({ ...supply, build: { ...supply.build, outputCount: wanted } })
}
