import { type Assessment, assess, type Limit, withLoopLimits } from '../../limits/index.ts'
import type { Drawer, Part } from '../../parts/part.ts'
import type { Build, Places } from '../../supply/build.ts'
import { at, resolve } from '../../supply/evaluate.ts'
import { type Need, need as needSchema } from '../../supply/need.ts'
import { fail, type Result, succeed } from '../../supply/result.ts'
import type { Supply } from '../../supply/supply.ts'
import { shortOf } from '../finish.ts'
import { feedbackKit } from '../kit/feedback-kit.ts'
import { outputKits, rectifiersFor } from '../kit/output-kit.ts'
import { smallKit } from '../kit/small-parts.ts'
import { sizing } from '../sizing.ts'
import { type Exchange, exchanges } from './exchanges.ts'
import { fewestChanges } from './fewest.ts'
import { frozen, needAt, withDivider } from './frozen.ts'

/** What a built supply needs to serve another output. */
export type Verdict = 'divider' | 'parts' | 'rewind' | 'none'

/** A built supply judged at another output. */
export interface Judged {
  readonly supply: Supply
  readonly assessment: Assessment
}

const mostRectifiers = 5
const mostOutputs = 2

function judge(supply: Supply): Judged | null {
  try {
    const judged = assess(supply)
    if (!judged.ok) return null
    // The loop takes longer than all the rest, and decides only where the rest holds.
    const assessment = judged.value.holds ? withLoopLimits(judged.value) : judged.value
    return { supply, assessment }
  } catch {
    return null
  }
}

const better = (a: Judged | null, b: Judged | null): Judged | null => {
  if (a === null || b === null) return a ?? b
  return shortOf(b.assessment) < shortOf(a.assessment) ? b : a
}

/** With nothing but the divider changed, the network of the loop as built; null where no divider gives this output. */
export const byDivider = (built: Supply, need: Need): Judged | null => judge(withDivider(built, need))

/**
 * With divider, rectifier, capacitors on the output, reference and bias capacitor from the drawer and the network of the
 * loop suited anew: the first that holds, else the nearest. Transformer, clamp and primary side stay as built.
 */
export function byParts(built: Supply, need: Need, drawer: Drawer): Judged | null {
  const z = sizing(need)
  const feedback = feedbackKit(need, drawer)
  const { places: small } = smallKit(drawer, z)
  const switcher = built.parts.find((p) => p.id === built.build.places.switcher)
  const frequency_Hz = switcher?.kind === 'switcher' ? switcher.frequency_Hz.typical : 1e5
  const { diodes } = rectifiersFor(need, drawer, frequency_Hz)
  const least_V = need.output_V + z.crest_V / 20
  const rectifiers = diodes.filter((d) => d.reverse_V > least_V).slice(0, mostRectifiers)
  let best: Judged | null = null
  for (const output of outputKits(need, drawer, z, mostOutputs))
    for (const rectifier of rectifiers) {
      const places: Places = {
        ...built.build.places,
        ...output.places,
        ...feedback.places,
        biasCapacitor: small.biasCapacitor,
        rectifier: rectifier.id,
      }
      const build: Build = {
        ...built.build,
        places,
        outputCount: output.outputCount,
        chokeTurns: places.choke === built.build.places.choke ? built.build.chokeTurns : null,
        chokeInHand: places.chokeWire === built.build.places.chokeWire ? built.build.chokeInHand : null,
        indicatorResistor_ohm: null,
        feedback: {
          ...built.build.feedback,
          dividerTop_ohm: feedback.dividerTop_ohm,
          dividerBottom_ohm: feedback.dividerBottom_ohm,
          ledResistor_ohm: null,
          biasResistor_ohm: null,
          compensationResistor_ohm: null,
          compensationCapacitor_F: null,
          highFrequencyCapacitor_F: null,
        },
      }
      best = better(best, judge({ ...built, need, build, parts: partsFor(build, built, drawer) }))
      if (best?.assessment.holds) return best
    }
  return best
}

function partsFor(build: Build, built: Supply, drawer: Drawer): Part[] {
  const ids = [...new Set(Object.values(build.places).filter((id): id is string => id !== null))]
  return ids.flatMap(
    (id) =>
      drawer.entries.find(({ part }) => part.id === id)?.part ?? built.parts.find((p) => p.id === id) ?? [],
  )
}

/** With secondary and bias wound anew for the same volts a turn, and the parts of the output; the primary stays. */
function byRewind(built: Supply, need: Need, drawer: Drawer): Judged | null {
  const t = built.build.transformer
  const [secondary, bias] = [t.secondaryTurns!, t.biasTurns!]
  let best: Judged | null = null
  const ideal = (secondary * (need.output_V + 0.6)) / (built.need.output_V + 0.6)
  for (const turns of new Set(
    [Math.round(ideal), Math.ceil(ideal), Math.floor(ideal)].filter((n) => n >= 1),
  )) {
    const perTurn = (need.output_V + 0.6) / turns
    const before = (built.need.output_V + 0.6) / secondary
    const rewound: Supply = {
      ...built,
      build: {
        ...built.build,
        transformer: {
          ...t,
          secondaryTurns: turns,
          biasTurns: Math.max(1, Math.round((bias * before) / perTurn)),
          secondaryInHand: null,
          stack: null,
        },
      },
    }
    best = better(best, byParts(rewound, need, drawer))
    if (best?.assessment.holds) return best
  }
  return best
}

/** What changes at another output, read at nominal input and full load. */
export interface Moved {
  readonly reflectedVoltage_V: number
  readonly drainPlateau_V: number
  readonly rectifierReverse_V: number
  readonly bias_V: number
}

export interface Retarget {
  readonly verdict: Verdict
  /** What was broken with the divider alone; empty where that is all it takes. */
  readonly broken: readonly Limit[]
  /** The supply by that verdict; the nearest where there is none. */
  readonly judged: Judged | null
  /** With the divider alone, for seeing what moves; null where it does not run at all. */
  readonly moved: Moved | null
  /** Every part, winding and value that changes, old and new. */
  readonly changed: readonly Exchange[]
}

/** How a built supply gets to another output: divider only, divider and parts, secondary rewound, or not at all. */
export function retarget(
  supply: Supply,
  drawer: Drawer,
  output_V: number,
  output_A: number,
): Result<Retarget> {
  const design = resolve(supply)
  if (!design.ok) return design
  const need = needAt(supply.need, output_V, output_A)
  const checked = needSchema.safeParse(need)
  if (!checked.success) {
    const issue = checked.error.issues[0]!
    return fail(`need.${issue.path.join('.')}`, issue.message)
  }
  const built = frozen(design.value)
  const alone = byDivider(built, need)
  const moved = alone ? movedOf(alone.assessment) : null
  const broken = alone ? alone.assessment.limits.filter((limit) => !limit.holds) : []
  const answer = (verdict: Verdict, judged: Judged | null): Result<Retarget> =>
    succeed({
      verdict,
      judged,
      moved,
      broken,
      changed: judged ? exchanges(design.value, judged.assessment.evaluation.design) : [],
    })
  if (alone?.assessment.holds) return answer('divider', alone)
  const more = servesMore(built, output_V, output_A)
  if (more) return answer('divider', more)
  const parts = byParts(built, need, drawer)
  if (parts?.assessment.holds) return answer('parts', fewestChanges(built, parts, judge))
  const rewound = byRewind(built, need, drawer)
  if (rewound?.assessment.holds) return answer('rewind', fewestChanges(built, rewound, judge))
  return answer('none', better(better(alone, parts), rewound))
}

/** Ratio of currents between two looks for one that the divider alone serves. */
const currentStep = 1.3

/**
 * The divider alone at the least current over this one at which it holds, up to the one that was built for: what serves
 * a current serves every smaller one, whose clamp idles at a lower voltage than its own full load would ask for.
 */
function servesMore(built: Supply, output_V: number, output_A: number): Judged | null {
  for (let more_A = output_A * currentStep; ; more_A *= currentStep) {
    const tried_A = Number(Math.min(more_A, built.need.output_A).toPrecision(3))
    if (tried_A <= output_A) return null
    const need = needAt(built.need, output_V, tried_A)
    const judged = needSchema.safeParse(need).success ? byDivider(built, need) : null
    if (judged?.assessment.holds) return judged
    if (tried_A >= built.need.output_A) return null
  }
}

function movedOf({ evaluation }: Assessment): Moved | null {
  const full = at(evaluation, 'nominal-100')
  const high = at(evaluation, 'maximum-100')
  if (!full || !high) return null
  return {
    reflectedVoltage_V: full.readings.reflectedVoltage_V,
    drainPlateau_V: high.readings.drainPlateau_V,
    rectifierReverse_V: high.readings.rectifierReverse_V,
    bias_V: full.readings.bias_V,
  }
}
