import type {
  Core,
  Diode,
  Drawer,
  Former,
  Heatsink,
  Material,
  Part,
  Switcher,
  Wire,
} from '../../parts/part.ts'
import type { Need } from '../../supply/need.ts'
import { type Problem, type Result, succeed } from '../../supply/result.ts'
import { type Surroundings, surroundings } from '../first-places.ts'
import { rectifiersFor } from '../kit/output-kit.ts'
import { bestMaterial, tapeFor } from '../kit/small-parts.ts'
import { insulatedWires, plainWires, wiresFor } from '../kit/wire-kit.ts'
import { missingKinds } from '../missing.ts'
import { held } from '../pick.ts'
import { type Sizing, sizing } from '../sizing.ts'
import type { SearchOptions } from './options.ts'
import { shuffled } from './shuffle.ts'

/** How the coil is put together: what keeps the sides apart, whether the primary is split, and of which wires. */
export interface StackChoice {
  readonly insulation: 'margins' | 'triple-insulated'
  readonly splitPrimary: boolean
  readonly primaryWires: readonly Wire[]
  readonly secondaryWires: readonly Wire[]
}

export interface CoreChoice {
  readonly core: Core
  readonly former: Former
  readonly tape: string
}

/** One core with one switcher: the unit that the search goes through. */
export interface Block {
  readonly core: number
  readonly switcher: number
}

/** Everything that is tried for a need, in a fixed order. */
export interface Space {
  readonly need: Need
  readonly options: SearchOptions
  readonly sizing: Sizing
  readonly parts: ReadonlyMap<string, Part>
  /** How many of each part are at hand; null: enough. A part that is not here must be bought. */
  readonly atHand: ReadonlyMap<string, number | null>
  readonly cores: readonly CoreChoice[]
  readonly switchers: readonly Switcher[]
  readonly materials: readonly Material[]
  readonly around: readonly Surroundings[]
  readonly rectifiers: readonly Diode[]
  readonly stacks: readonly StackChoice[]
  readonly sinks: readonly Heatsink[]
  readonly blocks: readonly Block[]
  /** Cores without a former. */
  readonly unusable: readonly Core[]
  /** Kinds of which not every part is tried, for saying so. */
  readonly shortened: readonly string[]
}

/**
 * The space of supplies for a need: every core with a former, every switcher and every fast rectifier that is large
 * enough, by stepped turns and gap and the wires and stacks that suit; mains side, output side and feedback by the
 * relations of their limits. Parts of `shop` that the drawer lacks are tried too and counted as to buy.
 * Errors: a kind that no supply can do without is missing.
 */
export function searchSpace(
  need: Need,
  drawer: Drawer,
  options: SearchOptions,
  shop: Drawer | null = null,
): Result<Space> {
  const all = shop ? withShop(drawer, shop) : drawer
  const missing = missingKinds(all, need)
  if (missing.length > 0) return { ok: false, problems: missing }
  const z = sizing(need)
  const { grid } = options
  const switchers = held(all, 'switcher')
  const frequency_Hz = Math.max(...switchers.map((s) => s.frequency_Hz.typical))
  const primary_Arms = (1.6 * z.power_W) / 0.8 / lowestInput_V(need)
  const plain = plainWires(all)
  const primary = wiresFor(plain, primary_Arms, frequency_Hz, grid.wires)
  const overMargins = wiresFor(plain, 1.65 * need.output_A, frequency_Hz, grid.wires)
  const insulated = wiresFor(insulatedWires(need, all), 1.65 * need.output_A, frequency_Hz, grid.wires)
  const splits = grid.plainPrimary ? [true, false] : [z.power_W >= 15]
  const stacks = splits.flatMap((splitPrimary): StackChoice[] => [
    {
      insulation: 'triple-insulated',
      splitPrimary,
      primaryWires: primary.wires,
      secondaryWires: insulated.wires,
    },
    { insulation: 'margins', splitPrimary, primaryWires: primary.wires, secondaryWires: overMargins.wires },
  ])
  const usable = stacks.filter((s) => s.primaryWires.length > 0 && s.secondaryWires.length > 0)
  const formers = held(all, 'former')
  const cores: CoreChoice[] = []
  const unusable: Core[] = []
  for (const core of held(all, 'core')) {
    const fitting = formers.filter((f) => f.fits.includes(core.size))
    if (fitting.length === 0) unusable.push(core)
    for (const former of fitting) cores.push({ core, former, tape: tapeFor(all, former) })
  }
  const { diodes: rectifiers, short: fewerDiodes } = rectifiersFor(need, all, frequency_Hz)
  const problems: Problem[] = []
  if (cores.length === 0)
    problems.push({
      path: 'drawer.former',
      message: 'no former of the drawer fits one of its cores: add one that does',
    })
  if (rectifiers.length === 0)
    problems.push({
      path: 'drawer.diode',
      message: `the drawer holds no fast rectifier of ${Number((3 * need.output_A).toPrecision(3))} A, three times the output current: add one`,
    })
  if (usable.length === 0)
    problems.push({
      path: 'drawer.wire',
      message:
        'no wire of the drawer is thin enough for the switching frequency and thick enough for the current with twelve in hand: add enamelled wire of about 0.3 to 0.5 mm',
    })
  if (problems.length > 0) return { ok: false, problems }
  return succeed({
    need,
    options,
    sizing: z,
    parts: new Map(all.entries.map(({ part }) => [part.id, part])),
    atHand: new Map(drawer.entries.map(({ part, quantity }) => [part.id, quantity])),
    cores,
    switchers,
    materials: held(all, 'material'),
    around: surroundings(need, all, grid.around),
    rectifiers,
    stacks: usable,
    sinks: held(all, 'heatsink').sort((a, b) => b.toAmbient_K_per_W - a.toAmbient_K_per_W),
    blocks: orderedBlocks(cores, switchers, z, options.seed).filter(
      ({ core, switcher }) =>
        (options.only?.core ?? cores[core]!.core.id) === cores[core]!.core.id &&
        (options.only?.switcher ?? switchers[switcher]!.id) === switchers[switcher]!.id,
    ),
    unusable,
    shortened: [
      ...(fewerDiodes ? ['rectifiers'] : []),
      ...(primary.short ? ['primary wires'] : []),
      ...(overMargins.short || insulated.short ? ['secondary wires'] : []),
    ],
  })
}

const lowestInput_V = (need: Need): number =>
  need.source.kind === 'mains' ? 1.05 * need.source.minimum_Vrms : need.source.minimum_V

/** The drawer with what the shop holds besides. */
function withShop(drawer: Drawer, shop: Drawer): Drawer {
  const known = new Set(drawer.entries.flatMap(({ part, quantity }) => (quantity === 0 ? [] : [part.id])))
  return {
    ...drawer,
    entries: [
      ...drawer.entries.filter(({ part }) => known.has(part.id)),
      ...shop.entries.filter(({ part }) => !known.has(part.id)).map(({ part }) => ({ part, quantity: null })),
    ],
  }
}

const materialsKnown = new WeakMap<Space, Map<Switcher, Material>>()

/** Material that a core is taken to be of with a switcher. */
export function materialFor(space: Space, switcher: Switcher): Material {
  let known = materialsKnown.get(space)
  if (!known) {
    known = new Map()
    materialsKnown.set(space, known)
  }
  let material = known.get(switcher)
  if (!material) {
    material = bestMaterial(space.materials, switcher.frequency_Hz.typical)
    known.set(switcher, material)
  }
  return material
}

/** Box round a core set that supplies of a power mostly end up with, m³: what searches of the starter drawer find. */
const usualVolume_m3 = (power_W: number): number => 1.6e-6 * Math.sqrt(power_W)
/** Rated power of the switcher over that asked, likewise. */
const usualRating = 1.7
/** A loop in peak-current mode holds more often than one in voltage mode: worth this ratio of either. */
const voltageModeOff = 0.4

/** How far a core and a switcher are from what is usual for the power, as logarithms of ratios; 0 is usual. */
export function farFromUsual({ core }: CoreChoice, switcher: Switcher, z: Sizing): number {
  const { A_m, B_m, C_m } = core.dimensions
  const rated = z.wide ? switcher.ratedPowerWide_W : switcher.ratedPower230_W
  return (
    Math.abs(Math.log((A_m * B_m * C_m) / usualVolume_m3(z.power_W))) +
    Math.abs(Math.log(rated / (usualRating * z.power_W))) +
    (switcher.control.style === 'voltage-mode' ? voltageModeOff : 0)
  )
}

/** Cores from the likeliest for a switcher on, whatever the seed. */
export const likeliestCores = ({ cores, switchers, sizing }: Space, switcher: number): number[] => {
  const off = cores.map((core) => farFromUsual(core, switchers[switcher]!, sizing))
  return cores.map((_, i) => i).sort((a, b) => off[a]! - off[b]! || a - b)
}

/** Blocks from the likeliest (a core and a switcher of about the right size), the rest in the seed's order. */
function orderedBlocks(
  cores: readonly CoreChoice[],
  switchers: readonly Switcher[],
  z: Sizing,
  seed: number,
): Block[] {
  const blocks = cores.flatMap((_, core) => switchers.map((_s, switcher) => ({ core, switcher })))
  const off = ({ core, switcher }: Block): number => farFromUsual(cores[core]!, switchers[switcher]!, z)
  const likely = [...blocks].sort((a, b) => off(a) - off(b))
  const first = Math.min(likely.length, 24)
  return [...likely.slice(0, first), ...shuffled(likely.slice(first), seed)]
}
