import { describe, expect, test } from 'vitest'
import { demoSupplies } from '../../src/engine/demo/index.ts'
import { assess } from '../../src/engine/limits/index.ts'
import type { Core, Former, Part } from '../../src/engine/parts/part.ts'
import { starterDrawer } from '../../src/engine/parts/starter/index.ts'
import {
  beginSearch,
  searchOptions,
  searchSpace,
  type WhyNot,
  whyNot,
} from '../../src/engine/search/index.ts'
import type { Place } from '../../src/engine/supply/build.ts'
import type { Need } from '../../src/engine/supply/need.ts'
import type { Supply } from '../../src/engine/supply/supply.ts'

const plain = demoSupplies()[0]!.need
const of = (output_V: number, output_A: number): Need => ({
  ...plain,
  output_V,
  trimLow_V: output_V,
  trimHigh_V: output_V,
  output_A,
  ripple_Vpp: output_V / 100,
  holdUp_s: 0,
})
const wide = {
  kind: 'mains',
  minimum_Vrms: 85,
  nominal_Vrms: 230,
  maximum_Vrms: 265,
  frequency_Hz: 50,
} as const
const needs: readonly Need[] = [plain, of(24, 3), { ...of(5, 4), source: wide }, of(12, 8), of(36, 4)]

/** Every core and chip explained, as if nothing had been found with any. */
const reasonsFor = (need: Need): WhyNot[] => {
  const space = searchSpace(need, starterDrawer, searchOptions('quick'))
  if (!space.ok) throw new Error(space.problems[0]!.message)
  return whyNot(space.value, beginSearch(space.value))
}

const withPart = (supply: Supply, place: Place, change: (part: Part) => Part): Supply => ({
  ...supply,
  parts: supply.parts.map((part) => (part.id === supply.build.places[place] ? change(part) : part)),
})

const scaled = <T extends object>(sizes: T, factor: number): T =>
  Object.fromEntries(Object.entries(sizes).map(([key, size]) => [key, size * factor])) as T

/** Core and former of the same shape, larger all over: by the root of the factor in length. */
function moreArea(supply: Supply, factor: number): Supply {
  const k = Math.sqrt(factor)
  const core = withPart(supply, 'core', (part) => {
    const { dimensions, published, ...rest } = part as Core
    const effective = published && {
      ...published,
      effectiveArea_m2: published.effectiveArea_m2 * factor,
      effectiveLength_m: published.effectiveLength_m * k,
      effectiveVolume_m3: published.effectiveVolume_m3 * factor * k,
      ...(published.minimumArea_m2 ? { minimumArea_m2: published.minimumArea_m2 * factor } : {}),
    }
    return {
      ...rest,
      dimensions: scaled(dimensions, k),
      ...(effective ? { published: effective } : {}),
    } as Core
  })
  return withPart(core, 'former', (part) => {
    const { width_m, height_m, barrel, ...rest } = part as Former
    const { section, ...size } = barrel
    return {
      ...rest,
      width_m: width_m * k,
      height_m: height_m * k,
      barrel: { section, ...scaled(size, k) },
    } as Former
  })
}

/** A higher winding space, in a core with a wider window. */
function moreHeight(supply: Supply, factor: number): Supply {
  const former = supply.parts.find((p): p is Former => p.id === supply.build.places.former)!
  const more_m = (factor - 1) * former.height_m
  const core = withPart(supply, 'core', (part) => {
    const { published, ...rest } = part as Core
    const { dimensions: d } = rest
    return {
      ...rest,
      published,
      dimensions: { ...d, E_m: d.E_m + 2 * more_m, A_m: d.A_m + 2 * more_m },
    } as Core
  })
  return withPart(core, 'former', (part) => ({ ...(part as Former), height_m: former.height_m + more_m }))
}

const withLimit = (supply: Supply, factor: number) =>
  withPart(supply, 'switcher', (part) =>
    part.kind === 'switcher' ? { ...part, currentLimit_A: scaled(part.currentLimit_A, factor) } : part,
  )
const amount = (sentence: string): number => {
  const more = / (\d+) % more /.exec(sentence)
  return more ? 1 + Number(more[1]) / 100 : Number(/ ([\d.]+) times the /.exec(sentence)![1])
}
const volts = (sentence: string): number => {
  const [, value, kilo] = / of ([\d.]+)\s(k?)V /.exec(sentence)!
  return Number(value) * (kilo ? 1000 : 1)
}

/** The candidate with the part that its sentence asks for; null where that is advice without a figure, or a least. */
function asTold({ sentence, limit, supply }: WhyNot): Supply | null {
  if (limit === null || supply === null || sentence.includes('at the least')) return null
  switch (limit.id) {
    case 'core.saturation':
      return moreArea(supply, amount(sentence))
    case 'transformer.hand-fit':
    case 'transformer.fit':
      return moreHeight(supply, amount(sentence))
    case 'switcher.peak-current':
    case 'supply.power':
      return withLimit(supply, amount(sentence))
    case 'switcher.drain-voltage':
    case 'switcher.drain-margin':
      return withPart(supply, 'switcher', (p) =>
        p.kind === 'switcher' ? { ...p, drainVoltage_V: volts(sentence) } : p,
      )
    case 'rectifier.reverse':
    case 'rectifier.reverse-margin':
      return withPart(supply, 'rectifier', (p) =>
        p.kind === 'diode' ? { ...p, reverse_V: volts(sentence) } : p,
      )
    default:
      return null
  }
}

describe.each(needs)('why not $output_V V $output_A A', (need) => {
  const reasons = reasonsFor(need)

  test('the limit named is broken as it is told, by the candidate as a whole', () => {
    for (const { limit, supply } of reasons) {
      if (limit === null || supply === null || limit.id.startsWith('loop.')) continue
      const judged = assess(supply)
      if (!judged.ok) throw new Error(judged.problems[0]!.message)
      expect(judged.value.limits.find(({ id }) => id === limit.id)).toEqual(limit)
      expect(limit.holds).toBe(false)
    }
  })

  test('with as much more as it says would do, that limit holds', () => {
    let tried = 0
    for (const reason of reasons) {
      const mended = asTold(reason)
      if (mended === null) continue
      const judged = assess(mended)
      if (!judged.ok) throw new Error(`${reason.sentence} ${judged.problems[0]!.message}`)
      const limit = judged.value.limits.find(({ id }) => id === reason.limit!.id)
      expect(limit?.margin ?? 1, reason.sentence).toBeGreaterThanOrEqual(-1e-9)
      tried++
    }
    expect(tried).toBeGreaterThan(5)
  })

  test('no figure is out of this world', () => {
    for (const { sentence, limit } of reasons) {
      expect(sentence).toMatch(/^[^:]+: .+\.$/)
      // Cases at the surroundings' own temperature and below, and junctions at the end of the scale, explain nothing.
      expect(limit === null || limit.unit !== '°C' || limit.reading < 250, sentence).toBe(true)
    }
  })
})
