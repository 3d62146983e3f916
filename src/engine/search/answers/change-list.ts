import type { Assessment } from '../../limits/index.ts'
import type { Drawer, Part, Wire } from '../../parts/part.ts'
import type { Build, Place, Places } from '../../supply/build.ts'
import { reference } from '../../supply/refs.ts'
import { placeKind, type Supply } from '../../supply/supply.ts'

/** One thing that is done differently. */
export interface Change {
  /** The place whose part changes, or the choice of the build. */
  readonly at: Place | 'outputCount' | 'bulkCount' | 'gap' | 'secondaryTurns' | 'splitPrimary' | 'clamp'
  readonly words: string
  /** Work that it takes: a shim, a part, a rewind, another core; the cheapest first. */
  readonly work: number
}

/** A change with what it does to a build. */
export interface Try {
  readonly change: Change
  readonly to: (build: Build) => Build
  /** The parts that come in with it. */
  readonly parts: readonly Part[]
}

/** Work by kind of change, from what hands do on a finished board: common practice, no source. */
const work = { count: 2, part: 2, heatsink: 1, gap: 1, rewind: 5, wire: 5, core: 8 } as const

const workAt = (place: Place): number => {
  if (place === 'switcherHeatsink' || place === 'rectifierHeatsink') return work.heatsink
  if (place === 'core' || place === 'material' || place === 'former') return work.core
  if (/Wire$|^tape$/.test(place) && place !== 'chokeWire') return work.wire
  return work.part
}

const mm = (length_m: number): string => `${Number((length_m * 1e3).toPrecision(2))} mm`

/** Everything that can be done once to a build: what might do in each place, every count, a few choices of the build. */
export function changeList({ build, parts }: Supply, drawer: Drawer, { evaluation }: Assessment): Try[] {
  const t = evaluation.design.transformer
  const counted = (at: 'outputCount' | 'bulkCount', n: number, what: string): Try[] =>
    n > 10
      ? []
      : [
          {
            change: { at, words: `${n} ${what}, not ${build[at]}`, work: work.count },
            to: (from) => ({ ...from, [at]: n }),
            parts: [],
          },
        ]
  const wound = (
    at: Change['at'],
    words: string,
    effort: number,
    change: Partial<Build['transformer']>,
  ): Try => ({
    change: { at, words, work: effort },
    to: (from) => ({ ...from, transformer: { ...from.transformer, ...change } }),
    parts: [],
  })
  const gaps = [0.7, 0.8, 0.9, 1.1, 1.25, 1.5].map((factor) => {
    const gap_m = Number((t.gap_m * factor).toPrecision(2))
    return wound('gap', `gap of ${mm(gap_m)}, not ${mm(t.gap_m)}`, work.gap, { gap_m })
  })
  const turns = [-2, -1, 1, 2]
    .map((more) => t.secondaryTurns + more)
    .filter((n) => n >= 1)
    .map((secondaryTurns) =>
      wound('secondaryTurns', `${secondaryTurns} secondary turns, not ${t.secondaryTurns}`, work.rewind, {
        primaryTurns: t.primaryTurns,
        secondaryTurns,
        biasTurns: null,
      }),
    )
  const split = wound(
    'splitPrimary',
    build.transformer.splitPrimary ? 'primary in one piece' : 'split primary',
    work.rewind,
    { splitPrimary: !build.transformer.splitPrimary, stack: null },
  )
  const clamps =
    build.clamp.style !== 'resistor-capacitor'
      ? []
      : [0.82, 1.22].map((factor): Try => {
          const resistor_ohm = Number((evaluation.design.clamp.resistor_ohm * factor).toPrecision(2))
          const now_ohm = evaluation.design.clamp.resistor_ohm
          const words = `clamp resistor of ${resistor_ohm / 1000} kohm, not ${now_ohm / 1000} kohm`
          return {
            change: { at: 'clamp', words, work: work.heatsink },
            to: (from) => ({ ...from, clamp: { ...from.clamp, resistor_ohm } }),
            parts: [],
          }
        })
  return [
    ...partsInPlace(build, parts, drawer),
    ...counted('outputCount', build.outputCount + 1, 'output capacitors'),
    ...counted('outputCount', build.outputCount + 2, 'output capacitors'),
    ...counted('bulkCount', build.bulkCount + 1, 'bulk capacitors'),
    ...(build.transformer.gap_m === null
      ? []
      : [wound('gap', 'the gap that the tool would choose', work.gap, { gap_m: null })]),
    ...gaps,
    ...turns,
    split,
    ...clamps,
  ]
}

/** Every part of the drawer in every place that it might do in; a core comes with a former that fits it. */
function partsInPlace(build: Build, used: readonly Part[], drawer: Drawer): Try[] {
  const at = (id: string | null): Part | null => used.find((p) => p.id === id) ?? null
  const hand = drawer.entries.filter(({ quantity }) => quantity !== 0).map(({ part }) => part)
  const formerNow = at(build.places.former)
  return (Object.keys(placeKind) as Place[]).flatMap((place) => {
    const now = at(build.places[place])
    return hand.flatMap((part): Try[] => {
      if (part.kind !== placeKind[place] || part.id === build.places[place]) return []
      if (!mightDo(place, part, now)) return []
      const change = { at: place, words: `${reference[place]}: ${part.name}`, work: workAt(place) }
      const put = (places: Partial<Places>, parts: readonly Part[], words = change.words): Try => ({
        change: { ...change, words },
        to: (from) => ({ ...from, places: { ...from.places, [place]: part.id, ...places } as Places }),
        parts: [part, ...parts],
      })
      if (part.kind !== 'core' || (formerNow?.kind === 'former' && formerNow.fits.includes(part.size)))
        return [put({}, [])]
      const former = hand.find((f) => f.kind === 'former' && f.fits.includes(part.size))
      return former ? [put({ former: former.id }, [former], `${change.words}, on ${former.name}`)] : []
    })
  })
}

/** Voltage that a capacitor in place of another has at the least, and area of copper in place of other: parts of it. */
const leastVoltage = 0.5
const mostCopper = 4

/** Whether a part is of the sort that a place takes at all: a film capacitor is no bulk capacitor. */
function mightDo(place: Place, part: Part, now: Part | null): boolean {
  if (part.kind === 'capacitor') {
    const safety = place === 'xCapacitor' ? 'X' : place === 'yCapacitor' ? 'Y' : null
    if ((part.safetyClass?.charAt(0) ?? null) !== safety) return false
    if (now?.kind !== 'capacitor') return safety !== null || wet(part.technology)
    return wet(part.technology) === wet(now.technology) && part.voltage_V >= leastVoltage * now.voltage_V
  }
  if (part.kind === 'wire' && now?.kind === 'wire') {
    if ((part.construction === 'triple-insulated') !== (now.construction === 'triple-insulated')) return false
    const ratio = copper_m2(part) / copper_m2(now)
    return ratio <= mostCopper && ratio >= 1 / mostCopper
  }
  return true
}

const wet = (technology: string): boolean => technology === 'electrolytic' || technology === 'polymer'

/** Cross-section of copper, without the quarter of pi that all round wires have. */
const copper_m2 = (wire: Wire): number =>
  wire.construction === 'litz'
    ? wire.strands * wire.strand_m ** 2
    : wire.construction === 'foil'
      ? (4 / Math.PI) * wire.thickness_m * wire.width_m
      : wire.bare_m ** 2

/** The supply after a change, with the parts that came in. */
export function applied(supply: Supply, { to, parts: come }: Try): Supply {
  const build = to(supply.build)
  const have = new Set(supply.parts.map((p) => p.id))
  const used = new Set(Object.values(build.places))
  const parts = [...supply.parts, ...come.filter((p) => !have.has(p.id))].filter((p) => used.has(p.id))
  return { ...supply, build, parts }
}
