import { unmetClasses } from '../../limits/index.ts'
import type { TransformerBuild } from '../../supply/build.ts'
import type { PartsUsed } from '../../supply/design.ts'
import { resolve } from '../../supply/evaluate.ts'
import { type Coil, type LaidCoil, layCoil, woundCoil } from '../../supply/resolve/coil.ts'
import { chooseGap, type Gap } from '../../supply/resolve/gap.ts'
import type { Turns } from '../../supply/resolve/turns.ts'
import { partsToBuy } from '../measures.ts'
import { buildOf, type Candidate, supplyFrom, transformerOf } from '../space/candidate.ts'
import type { Frame, Ground } from '../space/frames.ts'
import type { Space } from '../space/space.ts'
import { Loops } from './loops.ts'
import type { QuickCoil } from './quick-coil.ts'
import { fixedLimits, type Stand, Stands } from './stand.ts'

/** What the lean evaluation needs of a coil; the rest is let go. */
export type LeanCoil = Pick<
  Coil,
  'primary' | 'secondary' | 'bias' | 'leakage_H' | 'drainCapacitance_F' | 'star' | 'excess'
>

/** Met or not by more than that: looked at for each candidate. */
const ofChip = new Set(['primary.wire-skin', 'secondary.wire-skin'])

/** Places of one build that may take the same part, capacitors apart. */
const mostOfOne = 2

type Hands = Pick<QuickCoil, 'primaryInHand' | 'secondaryInHand'>

/** Coils kept between blocks of one core. */
const mostCoils = 400

/** What a search keeps between candidates: stands, coils wound already, classes known, verdicts on loops. */
export class Bench {
  readonly space: Space
  private readonly stands: Stands
  private coils = new Map<string, LeanCoil>()
  private coilsOf = -1
  private readonly classes = new Map<string, string | null>()
  private readonly buys = new WeakMap<Frame, number>()

  readonly loops: Loops
  /** Whether any part may be short, so that what is to buy must be counted for each candidate. */
  readonly counted: boolean

  constructor(space: Space) {
    this.space = space
    this.stands = new Stands(space)
    this.loops = new Loops(space)
    this.counted = [...space.parts].some(([id, part]) => {
      const held = space.atHand.get(id)
      return held === undefined || (held !== null && held < (part.kind === 'capacitor' ? 20 : mostOfOne))
    })
  }

  /** What the candidates of a frame share; see `Stands`. */
  stand(ground: Ground, frame: Frame): Stand | string | null {
    return this.stands.at(ground, frame)
  }

  /** The coil of a candidate laid out; null where it cannot be. */
  laid(ground: Ground, c: Candidate, parts: PartsUsed, quick: QuickCoil): LaidCoil | null {
    const { primaryInHand, secondaryInHand } = quick
    const build: TransformerBuild = { ...transformerOf(this.space, c), primaryInHand, secondaryInHand }
    const laid = layCoil(this.space.need, build, parts, ground.facts, c.frame.turns)
    return laid.ok ? laid.value : null
  }

  /**
   * A class or count that a candidate does not meet, by its limit's name; null where all are met. They follow from core,
   * former, wires in hand and stack alone, so that one look tells for all turns.
   */
  unmet(ground: Ground, c: Candidate, hands: Hands): string | null {
    const known = this.knownUnmet(ground, c, hands)
    if (known !== undefined) return known
    const key = this.classOf(ground, c, hands)
    const design = resolve(supplyFrom(this.space, buildOf(this.space, ground, c), ''))
    if (!design.ok) return null
    const unmet = unmetClasses(design.value).find((id) => !ofChip.has(id) && !fixedLimits.has(id)) ?? null
    this.classes.set(key, unmet)
    return unmet
  }

  /** The same where it is known already. */
  knownUnmet(ground: Ground, c: Candidate, hands: Hands): string | null | undefined {
    return this.classes.get(this.classOf(ground, c, hands))
  }

  private classOf({ block }: Ground, c: Candidate, hands: Hands): string {
    return `${block.core} ${this.space.stacks.indexOf(c.stack)} ${c.primaryWire.id} ${hands.primaryInHand} ${c.secondaryWire.id} ${hands.secondaryInHand}`
  }

  /** How many parts of a candidate must be bought; wire is cut from the reel, and counts where there is none. */
  toBuy(ground: Ground, c: Candidate): number {
    if (!this.counted) return 0
    const { atHand } = this.space
    const reels = (atHand.has(c.primaryWire.id) ? 0 : 1) + (atHand.has(c.secondaryWire.id) ? 0 : 1)
    const before = this.buys.get(c.frame)
    if (before !== undefined) return before + reels
    const counted = partsToBuy(this.space, buildOf(this.space, ground, c)).length - reels
    this.buys.set(c.frame, counted)
    return counted + reels
  }

  /** What a laid coil does to the circuit, worked out once for all frames that wind the same. */
  coil(ground: Ground, c: Candidate, laid: LaidCoil): LeanCoil {
    if (this.coilsOf !== ground.block.core || this.coils.size > mostCoils) {
      this.coils = new Map()
      this.coilsOf = ground.block.core
    }
    const { turns } = c.frame
    const f = ground.switcher.frequency_Hz.typical
    const key = `${f} ${this.classOf(ground, c, laid)} ${turns.primary} ${turns.secondary} ${turns.bias}`
    let coil = this.coils.get(key)
    if (!coil) {
      const { primary, secondary, bias, star, excess } = woundCoil(laid, 'post', turns, f)
      const { leakage_H, drainCapacitance_F } = laid
      coil = { primary, secondary, bias, leakage_H, drainCapacitance_F, star, excess }
      this.coils.set(key, coil)
    }
    return coil
  }
}

const inPost = { gapPlace: 'post', gap_m: null } as TransformerBuild

/** The gap of a frame; null where none gives its inductance. */
export function gapOf(ground: Ground, parts: PartsUsed, turns: Turns): Gap | null {
  const gap = chooseGap(inPost, parts, ground.facts, turns)
  return gap.ok ? gap.value : null
}
