import { type ExcessResistance, harmonicCount } from '../../converter/harmonics.ts'
import { ringingResponse } from '../../converter/ringing.ts'
import { junctionToAmbient } from '../../heat/index.ts'
import { assess, unmetClasses } from '../../limits/index.ts'
import { copperResistanceRatio } from '../../magnetics/wire/index.ts'
import type { Heatsink } from '../../parts/part.ts'
import type { Build, TransformerBuild } from '../../supply/build.ts'
import type { Design, PartsUsed } from '../../supply/design.ts'
import { inputSide } from '../../supply/evaluate/input-side.ts'
import type { Operation } from '../../supply/evaluate/operate.ts'
import type { Plant } from '../../supply/evaluate/plant.ts'
import { corePlant, plantOf } from '../../supply/evaluate/plant-of.ts'
import { resolve } from '../../supply/evaluate.ts'
import { surgedBulkOf } from '../../supply/mains-side/parts.ts'
import { chooseClamp } from '../../supply/resolve/clamp.ts'
import { type Coil, type LaidCoil, layCoil, woundCoil } from '../../supply/resolve/coil.ts'
import { chooseGap, type Gap } from '../../supply/resolve/gap.ts'
import { leakageDamping_ohm } from '../../supply/resolve/leakage-damping.ts'
import { risesOf } from '../../supply/resolve/rise-path.ts'
import { handoverLeakage_H, leadsAtPrimary_H, starWithTrack } from '../../supply/resolve/secondary-path.ts'
import type { Turns } from '../../supply/resolve/turns.ts'
import type { Supply } from '../../supply/supply.ts'
import { partsToBuy } from '../measures.ts'
import { buildOf, type Candidate, copperOf, supplyFrom, transformerOf } from '../space/candidate.ts'
import { type Frame, type Ground, sinksOf, snubberOf } from '../space/frames.ts'
import type { Block, Space } from '../space/space.ts'
import { type BulkTable, bulkTable } from './bulk-table.ts'
import type { Rails } from './frame-limits.ts'
import { Loops } from './loops.ts'
import type { QuickCoil } from './quick-coil.ts'

type Mutable<T> = { -readonly [K in keyof T]: T[K] }

/** Hand-wound leakage strays this far, as the design takes it. */
const leakageSpread = { down: 0.7, up: 1.5 }

/** A chip with a rectifier in its surroundings: what follows from them whatever the core. */
interface Place {
  readonly parts: PartsUsed
  readonly plant: Plant
  readonly tables: Tables
  readonly rails: Rails
  /** To which a surge on the mains lifts the bulk. */
  readonly surged_V: number
  /** Weakest of the limits that are the same for every candidate here. */
  readonly fixed: { readonly id: string; readonly margin: number }
}

/** The same with a core: everything that the candidates of a block share, and what one leaves for the next. */
export interface Stand extends Place {
  readonly plant: Mutable<Plant>
  /** Point at which the candidate before broke a limit. */
  brokeAt: number
  /** Overload of the candidate before at the lowest and the highest input. */
  readonly overloads: [Operation | null, Operation | null]
  /** The ring that has been worked out for the candidate at hand. */
  rings: Plant['ringing'] | null
}

/** What the lean evaluation needs of a coil; the rest is let go. */
export type LeanCoil = Pick<
  Coil,
  'primary' | 'secondary' | 'bias' | 'leakage_H' | 'drainCapacitance_F' | 'star' | 'excess'
>

interface Tables {
  readonly low: BulkTable
  readonly lowWeak: BulkTable
  readonly high: BulkTable
}

/** Limits that neither turns nor copper nor gap move. */
const fixedLimits = new Set([
  'bulk.voltage',
  'bridge.reverse',
  'bridge.surge',
  'fuse.inrush',
  'fuse.voltage',
  'ntc.capacitance',
  'varistor.voltage',
  'x-capacitor.voltage',
  'x-capacitor.discharge',
  'output-capacitor.voltage',
  'second-capacitor.voltage',
  'choke.fill',
  'output.set-point',
  'output.trim-low',
  'output.trim-high',
  'reference.cathode-voltage',
  'optocoupler.led-current',
  'indicator.current',
  'rectifier.size',
  'clamp.diode-speed',
  'switcher.start',
  'insulation.optocoupler',
  'y-capacitor.touch-current',
  'bridge.melting',
  'bridge.mains-surge',
  'trimmer.power',
])

/** Met or not by more than that: looked at for each candidate. */
const ofChip = new Set(['primary.wire-skin', 'secondary.wire-skin'])

/** Places of one build that may take the same part, capacitors apart. */
const mostOfOne = 2

type Hands = Pick<QuickCoil, 'primaryInHand' | 'secondaryInHand'>

/** Coils kept between blocks of one core. */
const mostCoils = 400

/** What a search keeps between candidates: tables of the mains side, and coils wound already. */
export class Bench {
  readonly space: Space
  private readonly tables = new Map<number, Tables>()
  private readonly rails = new Map<number, Rails>()
  private coils = new Map<string, LeanCoil>()
  private coilsOf = -1
  private readonly places = new Map<string, Place | string>()
  private stands = new Map<string, Stand | string>()
  private standsOf: Block | null = null
  private readonly classes = new Map<string, string | null>()
  private readonly buys = new WeakMap<Frame, number>()

  readonly loops: Loops
  /** Whether any part may be short, so that what is to buy must be counted for each candidate. */
  readonly counted: boolean

  constructor(space: Space) {
    this.space = space
    this.loops = new Loops(space)
    this.counted = [...space.parts].some(([id, part]) => {
      const held = space.atHand.get(id)
      return held === undefined || (held !== null && held < (part.kind === 'capacitor' ? 20 : mostOfOne))
    })
  }

  /**
   * What the candidates of a frame share; where chip and rectifier are new it is made from the first of its coppers that
   * resolves. A sentence where the surroundings themselves cannot be settled, null where none of these can and another may.
   */
  stand(ground: Ground, frame: Frame): Stand | string | null {
    if (this.standsOf !== ground.block) {
      this.stands = new Map()
      this.standsOf = ground.block
    }
    const key = placeKey(frame)
    const known = this.stands.get(key)
    if (known !== undefined) return known
    const place = this.placeOf(ground, frame)
    if (place === null) return null
    const stand = typeof place === 'string' ? place : onCore(place, this.space, ground)
    this.stands.set(key, stand)
    return stand
  }

  private placeOf(ground: Ground, frame: Frame): Place | string | null {
    const key = `${ground.block.switcher} ${placeKey(frame)}`
    const known = this.places.get(key)
    if (known !== undefined) return known
    for (const c of copperOf(frame)) {
      const place = this.makePlace(ground, c)
      if (place === null) continue
      this.places.set(key, place)
      return place
    }
    return null
  }

  private makePlace(ground: Ground, c: Candidate): Place | string | null {
    const { space } = this
    const supply = supplyFrom(space, buildOf(space, ground, c), '')
    const design = resolve(supply)
    if (!design.ok) {
      const problem = design.problems[0]!
      return /^build\.transformer|places\.core|wires/.test(problem.path) ? null : problem.message
    }
    const plant = plantOf(design.value)
    return {
      parts: design.value.parts,
      plant,
      tables: this.tablesOf(c.frame.around, plant),
      fixed: fixedOf(supply),
      surged_V: surgedBulkOf(design.value),
      rails: this.railsOf(c.frame.around, plant),
    }
  }

  /** Rails follow from the mains side alone. */
  private railsOf(around: number, plant: Plant): Rails {
    let known = this.rails.get(around)
    if (!known) {
      const { need } = this.space
      const tables = this.tablesOf(around, plant)
      const least_W = need.output_V * need.output_A
      const crestAt = (power_W: number): number =>
        inputSide(plant, 'maximum', plant.bulk_F.typical, power_W, null)?.bulk.maximum_V ??
        tables.high.values[2]!
      known = {
        least_W,
        valley_V: tables.lowWeak.values[0]!,
        crest_V: crestAt(2 * least_W),
        idleCrest_V: crestAt(0.02 * least_W),
      }
      this.rails.set(around, known)
    }
    return known
  }

  private tablesOf(around: number, plant: Plant): Tables {
    let known = this.tables.get(around)
    if (!known) {
      const least_W = this.space.need.output_V * this.space.need.output_A
      known = {
        low: bulkTable(plant, 'minimum', plant.bulk_F.typical, least_W),
        lowWeak: bulkTable(plant, 'minimum', plant.bulk_F.minimum, least_W),
        high: bulkTable(plant, 'maximum', plant.bulk_F.typical, least_W),
      }
      this.tables.set(around, known)
    }
    return known
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

/** The weakest of the limits that core, turns and copper do not move. */
function fixedOf(supply: Supply): Place['fixed'] {
  const assessed = assess(supply)
  const weakest = assessed.ok
    ? assessed.value.limits.find(({ id, discrete, holds }) => fixedLimits.has(id) && !(discrete && holds))
    : undefined
  return { id: weakest?.id ?? '', margin: weakest?.margin ?? Number.POSITIVE_INFINITY }
}

/** A place with the core of a block. */
function onCore(place: Place, space: Space, ground: Ground): Stand {
  const { core, former, tape } = space.cores[ground.block.core]!
  return {
    ...place,
    parts: { ...place.parts, core, former, tape: space.parts.get(tape) as PartsUsed['tape'] },
    plant: { ...place.plant, ...corePlant(ground.facts.geometry) },
    brokeAt: 0,
    overloads: [null, null],
    rings: null,
  }
}

const dressed = new WeakMap<Stand, Map<string, PartsUsed>>()

/** The parts of a stand with the wires of a candidate. */
export function partsWith(stand: Stand, { primaryWire, secondaryWire }: Candidate): PartsUsed {
  let known = dressed.get(stand)
  if (!known) {
    known = new Map()
    dressed.set(stand, known)
  }
  const key = `${primaryWire.id} ${secondaryWire.id}`
  let parts = known.get(key)
  if (!parts) {
    parts = { ...stand.parts, primaryWire, secondaryWire }
    known.set(key, parts)
  }
  return parts
}

const placeKey = (frame: Frame): string => `${frame.around} ${frame.rectifier}`

const inPost = { gapPlace: 'post', gap_m: null } as TransformerBuild

/** The gap of a frame; null where none gives its inductance. */
export function gapOf(ground: Ground, parts: PartsUsed, turns: Turns): Gap | null {
  const gap = chooseGap(inPost, parts, ground.facts, turns)
  return gap.ok ? gap.value : null
}

/** One step of the E12 series, a little over. */
const resistorStep = 1.23

const noExcess = new Float64Array(harmonicCount)
const withoutExcess: ExcessResistance = {
  primary_ohm: noExcess,
  secondary_ohm: noExcess,
  mutual_ohm: noExcess,
}

/** All leakage on the secondary's side of the bias winding, which then takes most out of the clamp. */
const mostDrawn = { secondaryShare: 1, biasShare: 1 }

/**
 * Puts a candidate's gap, clamp and heatsinks into the plant of its stand, with a coil that is better than its own can
 * be: no skin or proximity loss, and unless it is laid already no capacitance and a leakage that is less than its own.
 * What breaks or is outdone so is so in earnest.
 */
export function dressLightly(
  stand: Stand,
  space: Space,
  frame: Frame,
  gap: Gap,
  coil: Pick<QuickCoil, 'primary20_ohm' | 'secondary20_ohm'>,
  laid: Pick<LaidCoil, 'leakage_H' | 'drainCapacitance_F'> | number,
): void {
  const { plant: p } = stand
  if (typeof laid === 'number') {
    dressFrame(stand, space, frame, gap, laid, 0)
    // The next resistor above burns less than whichever its own coil asks for.
    p.clampResistor_ohm *= resistorStep
  } else dressFrame(stand, space, frame, gap, laid.leakage_H, laid.drainCapacitance_F)
  p.primaryResistance20_ohm = coil.primary20_ohm
  p.secondaryResistance20_ohm = coil.secondary20_ohm
  p.biasResistance20_ohm = 0
  p.leakageStar = mostDrawn
  p.excess = withoutExcess
}

/** Puts a candidate's gap, coil, clamp and heatsinks into the plant of its stand. */
export function dress(stand: Stand, space: Space, frame: Frame, gap: Gap, coil: LeanCoil): void {
  const { plant: p } = stand
  stand.rings = null
  dressFrame(stand, space, frame, gap, coil.leakage_H, coil.drainCapacitance_F)
  p.primaryResistance20_ohm = coil.primary.dcResistance_ohm
  p.secondaryResistance20_ohm = coil.secondary.dcResistance_ohm
  p.biasResistance20_ohm = coil.bias.dcResistance_ohm
  p.leakageStar = starWithTrack(coil.star, coil.leakage_H, frame.turns.turnsRatio)
  p.excess = coil.excess
}

function dressFrame(
  stand: Stand,
  space: Space,
  frame: Frame,
  gap: Gap,
  leakage_H: number,
  coil_F: number,
): void {
  const { plant: p, parts } = stand
  const { turns } = frame
  p.primaryTurns = turns.primary
  p.turnsRatio = turns.turnsRatio
  p.biasPrimaryRatio = turns.bias / turns.primary
  p.inductance_H = gap.inductance_H
  p.leakage_H = handoverLeakage_H(
    {
      minimum: leakageSpread.down * leakage_H,
      typical: leakage_H,
      maximum: leakageSpread.up * leakage_H,
    },
    turns.turnsRatio,
  )
  p.capacitorLeads_H = leadsAtPrimary_H(turns.turnsRatio, p.outputCount)
  p.bias_V =
    (turns.reflectedVoltage_V / turns.turnsRatio) * (turns.bias / turns.secondary) - parts.biasDiode.drop_V
  const snubber = snubberOf(space, frame)
  p.drainCapacitance_F = parts.switcher.outputCapacitance_F + coil_F
  p.rise = risesOf(
    p.leakage_H,
    p.capacitorLeads_H,
    p.drainCapacitance_F,
    parts.rectifier,
    snubber,
    turns.turnsRatio,
  )
  const clamp = chooseClamp(
    { ...resistorClamp, snubber, outputCount: p.outputCount },
    parts,
    turns,
    leakage_H,
    coil_F,
    frame.estimate,
  )
  if (clamp.ok) {
    p.clampResistor_ohm = clamp.value.resistor_ohm
    p.clampCapacitor_F = clamp.value.capacitor_F
  }
  p.snubber_F = snubber?.capacitor_F ?? 0
  const sinks = sinksOf(space, frame)
  p.switchHeat_K_per_W = heatPath(space, parts.switcher, sinks.switcher)
  p.rectifierHeat_K_per_W = heatPath(space, parts.rectifier, sinks.rectifier)
}

/** What rings on the rectifier of a dressed plant, as the evaluation works it out. */
export const ringingOf = (p: Plant, coil: LeanCoil, snubber: Build['snubber']): Plant['ringing'] => {
  const square = p.turnsRatio ** 2
  const transformer = { coil, turnsRatio: p.turnsRatio } as Design['transformer']
  const damping_ohm = leakageDamping_ohm(
    { transformer },
    p.frequency_Hz.typical,
    p.leakage_H.typical,
    p.drainCapacitance_F,
  )
  return ringingResponse({
    leakage_H: p.secondaryLoop_H,
    damping_ohm: damping_ohm / square,
    series_ohm:
      copperResistanceRatio(20, 80) * (p.secondaryResistance20_ohm + p.primaryResistance20_ohm / square) +
      p.onResistance25_ohm / square,
    junction_F: Math.max(1e-12, p.rectifierCapacitance_F),
    snubber,
  })
}

/** The clamp that candidates have. */
const resistorClamp: Pick<Build, 'clamp'> = {
  clamp: { style: 'resistor-capacitor', voltage_V: null, resistor_ohm: null, capacitor_F: null },
}

function heatPath(
  space: Space,
  part: { readonly junctionToCase_K_per_W: number; readonly junctionToAmbient_K_per_W: number },
  sink: string | null,
): number {
  const heatsink = sink === null ? null : (space.parts.get(sink) as Heatsink)
  return junctionToAmbient({
    junctionToCase_K_per_W: part.junctionToCase_K_per_W,
    junctionToAmbient_K_per_W: part.junctionToAmbient_K_per_W,
    heatsink,
    pad: null,
  })
}
