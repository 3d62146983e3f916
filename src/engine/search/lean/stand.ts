import { assess } from '../../limits/index.ts'
import type { PartsUsed } from '../../supply/design.ts'
import { inputSide } from '../../supply/evaluate/input-side.ts'
import type { Plant } from '../../supply/evaluate/plant.ts'
import { corePlant, plantOf } from '../../supply/evaluate/plant-of.ts'
import { resolve } from '../../supply/evaluate.ts'
import { surgedBulkOf } from '../../supply/mains-side/parts.ts'
import type { Supply } from '../../supply/supply.ts'
import { buildOf, type Candidate, copperOf, supplyFrom } from '../space/candidate.ts'
import type { Frame, Ground } from '../space/frames.ts'
import type { Block, Space } from '../space/space.ts'
import { type BulkTable, bulkTable } from './bulk-table.ts'
import type { Rails } from './frame-limits.ts'
import type { Start } from './settle.ts'

type Mutable<T> = { -readonly [K in keyof T]: T[K] }

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
  /** Full load at the lowest input of the candidate before. */
  low: Start | null
  /** Overload of the candidate before at the lowest and the highest input. */
  readonly overloads: [Start | null, Start | null]
  /** The ring that has been worked out for the candidate at hand. */
  rings: Plant['ringing'] | null
}

interface Tables {
  readonly low: BulkTable
  readonly lowWeak: BulkTable
  readonly high: BulkTable
  /** Up to the power of an overload. */
  readonly overLow: BulkTable
  readonly overHigh: BulkTable
}

/** Limits that neither turns nor copper nor gap move. */
export const fixedLimits = new Set([
  'bulk.voltage',
  'bridge.fitted',
  'bridge.reverse',
  'bridge.surge',
  'fuse.fitted',
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

/** Powers of an overload that tables reach, over the output. */
const overloadReach = 12

/** Stands of a space: one for each chip, rectifier and surroundings, put on the core of the block at hand. */
export class Stands {
  private readonly space: Space
  private readonly tables = new Map<number, Tables>()
  private readonly rails = new Map<number, Rails>()
  private readonly places = new Map<string, Place | string>()
  private stands = new Map<string, Stand | string>()
  private standsOf: Block | null = null

  constructor(space: Space) {
    this.space = space
  }

  /**
   * What the candidates of a frame share; where chip and rectifier are new it is made from the first of its coppers that
   * resolves. A sentence where the surroundings themselves cannot be settled, null where none of these can and another may.
   */
  at(ground: Ground, frame: Frame): Stand | string | null {
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
        overLow: bulkTable(plant, 'minimum', plant.bulk_F.typical, least_W, overloadReach),
        overHigh: bulkTable(plant, 'maximum', plant.bulk_F.typical, least_W, overloadReach),
      }
      this.tables.set(around, known)
    }
    return known
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
    low: null,
    overloads: [null, null],
    rings: null,
  }
}

const placeKey = (frame: Frame): string => `${frame.around} ${frame.rectifier}`
