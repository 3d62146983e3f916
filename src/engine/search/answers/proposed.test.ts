import { describe, expect, test } from 'vitest'
import { assessWhole } from '../../limits/index.ts'
import { starterDrawer } from '../../parts/starter/index.ts'
import type { Need } from '../../supply/need.ts'
import { proposeSupply } from '../propose.ts'
import { supplyFrom } from '../space/candidate.ts'
import { searchOptions } from '../space/options.ts'
import { searchSpace } from '../space/space.ts'
import { beginSearch } from '../step.ts'
import { withProposal } from './proposed.ts'

const need: Need = {
  source: { kind: 'mains', minimum_Vrms: 207, nominal_Vrms: 230, maximum_Vrms: 253, frequency_Hz: 50 },
  ...{ output_V: 12, trimLow_V: 12, trimHigh_V: 12, output_A: 1.5, ripple_Vpp: 0.12, holdUp_s: 0 },
  ...{ ambient_C: 40, cooling: 'case-vented', feeds: 'electronics' },
  ...{ insulation: 'reinforced', pollutionDegree: 2, altitude_m: 2000 },
}

const spaceFor = (of: Need, only = {}) => {
  const space = searchSpace(of, starterDrawer, searchOptions('quick', only))
  if (!space.ok) throw new Error(space.problems[0]?.message)
  return space.value
}

describe('a search that found nothing', () => {
  const space = spaceFor(need)
  const nothing = { ...beginSearch(space), done: true }
  const found = withProposal(space, nothing)
  const answer = found.front[0]!

  test('answers with the proposal where it holds every limit, its turns said', () => {
    const proposed = proposeSupply(need, starterDrawer)
    expect(proposed.ok && answer.build.places).toEqual(proposed.ok && proposed.value.build.places)
    expect(answer.build.transformer.primaryTurns).toBeGreaterThan(0)
    const judged = assessWhole(supplyFrom(space, answer.build, ''))
    expect(judged.ok && judged.value.holds).toBe(true)
  })

  test('counts its core and chip among those with an answer', () => {
    expect(space.cores[found.cores[0]!]!.core.id).toBe(answer.build.places.core)
    expect(space.switchers[found.switchers[0]!]!.id).toBe(answer.build.places.switcher)
  })

  test('stays as it is before its end, with answers of its own, and where one core alone was asked', () => {
    const going = beginSearch(space)
    expect(withProposal(space, going)).toBe(going)
    expect(withProposal(space, found)).toBe(found)
    const one = spaceFor(need, { core: answer.build.places.core })
    const none = { ...beginSearch(one), done: true }
    expect(withProposal(one, none)).toBe(none)
  })
})

test('a need that nothing of the drawer serves stays without an answer', () => {
  const space = spaceFor({ ...need, output_V: 40, trimLow_V: 40, trimHigh_V: 40, output_A: 6 })
  expect(withProposal(space, { ...beginSearch(space), done: true }).front).toEqual([])
})
