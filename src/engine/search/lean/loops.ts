import { type Assessment, assess, withLoopLimits } from '../../limits/index.ts'
import { leastPhase_deg } from '../../limits/rules/loop.ts'
import type { Network } from '../../loop/index.ts'
import { boundedPhase_deg } from '../../supply/loop/index.ts'
import { buildOf, copperOf, supplyFrom } from '../space/candidate.ts'
import { type Frame, framesOf, type Ground, groundOf } from '../space/frames.ts'
import { type Block, likeliestCores, type Space } from '../space/space.ts'

/** A class whose sample has less than this part of the least phase margin is not searched for one whose loop holds. */
const hopeless = 0.4
/** A loop that the network of its class leaves this far short is not mended by one of its own. */
const short = 0.15
/** Members of a class looked at for its sample, and of those on one core. */
const looked = { all: 4, onOneCore: 1 }

/** What a class of loops is judged by before each of its members is. */
interface Sample {
  /** Least phase margin at the corners that bound its loop. */
  readonly phase_deg: number
  /** Null where no member could be resolved. */
  readonly network: Partial<Network> | null
}

/**
 * Verdicts on loops, whose network takes milliseconds to choose. Frames of one chip with the same surroundings, ripple
 * ratio and aim of reflected voltage are a class; the network chosen for one sample of it suits them all nearly as well as their
 * own. Where that network is far short at a corner a candidate is let go, else its own is chosen and its limits decide.
 * Which member is the sample follows from the space alone, so that neither the order of blocks nor the number of
 * workers matters.
 */
export class Loops {
  private readonly space: Space
  private readonly samples = new Map<string, Sample>()
  private readonly groups = new Map<number, Group[]>()

  constructor(space: Space) {
    this.space = space
  }

  /** True where the loop of such frames is known to be far short. */
  hopeless({ switcher }: Ground, frame: Frame): boolean {
    const sample = this.samples.get(classOf(switcher.id, frame))
    return sample !== undefined && sample.phase_deg < hopeless * leastPhase_deg
  }

  /** The assessment with the limits of the loop; null where the loop is far short with the network of its class. */
  judge(ground: Ground, frame: Frame, fast: Assessment): Assessment | null {
    const key = classOf(ground.switcher.id, frame)
    let sample = this.samples.get(key)
    if (!sample) {
      sample = this.sampleOf(ground.block.switcher, key)
      this.samples.set(key, sample)
    }
    if (
      sample.phase_deg < hopeless * leastPhase_deg ||
      shortWith(fast, sample.network, (1 - short) * leastPhase_deg)
    )
      return null
    // With its own network the corners that bound it first: a tenth of them all.
    return shortWith(fast, networkOf(fast), leastPhase_deg) ? null : withLoopLimits(fast)
  }

  /** Of the first few members of a class the one with the widest margins. */
  private sampleOf(switcher: number, key: string): Sample {
    const { space } = this
    const seen: Assessment[] = []
    for (let k = 0; seen.length < looked.all; k++) {
      const group = this.groupAt(switcher, k)
      if (group === null) break
      const { ground } = group
      if (ground === null) continue
      for (const frame of group.members.get(key) ?? []) {
        const [first] = copperOf(frame)
        const assessed = assess(supplyFrom(space, buildOf(space, ground, first!), ''))
        if (assessed.ok) seen.push(assessed.value)
      }
    }
    if (seen.length === 0) return { phase_deg: leastPhase_deg, network: null }
    const best = seen.reduce((a, b) => (b.givesFirst.margin > a.givesFirst.margin ? b : a))
    const network = networkOf(best)
    const { design, conditions } = best.evaluation
    return { phase_deg: boundedPhase_deg(design, conditions, network), network }
  }

  /** The first members of every class on a switcher's k-th likeliest core; null beyond the last core. */
  private groupAt(switcher: number, k: number): Group | null {
    const { space } = this
    let groups = this.groups.get(switcher)
    if (!groups) {
      groups = []
      this.groups.set(switcher, groups)
    }
    if (groups.length <= k) {
      const cores = likeliestCores(space, switcher)
      for (let at = groups.length; at <= k; at++) {
        const core = cores[at]
        if (core === undefined) return null
        groups.push(groupOf(space, { core, switcher }))
      }
    }
    return groups[k]!
  }
}

/** The first members of each class on one core. */
interface Group {
  readonly ground: Ground | null
  readonly members: ReadonlyMap<string, readonly Frame[]>
}

function groupOf(space: Space, block: Block): Group {
  const members = new Map<string, Frame[]>()
  const ground = groundOf(space, block)
  if (ground === null) return { ground, members }
  for (const frame of framesOf(space, ground)) {
    const key = classOf(ground.switcher.id, frame)
    const alike = members.get(key)
    if (!alike) members.set(key, [frame])
    else if (alike.length < looked.onOneCore) alike.push(frame)
  }
  return { ground, members }
}

const networkOf = ({ evaluation: { design } }: Assessment): Partial<Network> => {
  const { compensationResistor_ohm, compensationCapacitor_F, highFrequencyCapacitor_F } = design.feedback
  return { compensationResistor_ohm, compensationCapacitor_F, highFrequencyCapacitor_F }
}

/** Whether a network leaves less phase than that at one of the corners that bound it. */
const shortWith = (
  { evaluation: { design, conditions } }: Assessment,
  network: Sample['network'],
  least_deg: number,
): boolean => network !== null && boundedPhase_deg(design, conditions, network, least_deg) < least_deg

const classOf = (switcher: string, { around, ripple, aimed_V }: Frame): string =>
  `${switcher} ${around} ${ripple} ${aimed_V}`
