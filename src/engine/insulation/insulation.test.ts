import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  type BarrierBuild,
  type InsulationBasis,
  ratedImpulse,
  requiredDistances,
  requiredTapeLayers,
  strengthTest,
  walkBarrier,
} from './index.ts'

const basis: InsulationBasis = {
  mains_Vrms: 240,
  overvoltage: 'II',
  pollutionDegree: 2,
  materialGroup: 'III',
  altitude_m: 500,
  grade: 'reinforced',
  working_Vrms: 250,
  working_Vpeak: 420,
}

const whole: BarrierBuild = {
  insulation: 'margins',
  wireGrade: null,
  margin_m: 3e-3,
  tapeLayers: 3,
  tapeStrength_V: 4500,
  sleeving: true,
  sleeveWall_m: 0.41e-3,
  pinRowDistance_m: 10e-3,
  rowsSeparate: true,
  primaryToCore_m: 2.5e-3,
  coreToSecondary_m: 3.5e-3,
  boardCreepage_m: 6e-3,
  boardSlot_m: null,
  optocouplerCreepage_m: 7e-3,
  optocouplerIsolation_Vrms: 5000,
  yCapacitorClass: 'Y1',
}

describe('distances', () => {
  it('grow with every worse condition', () => {
    const grade = fc.constantFrom('basic' as const, 'reinforced' as const)
    fc.assert(
      fc.property(
        fc.double({ min: 50, max: 600, noNaN: true }),
        fc.double({ min: 1, max: 1.3, noNaN: true }),
        fc.double({ min: 0, max: 4900, noNaN: true }),
        grade,
        (volts, factor, altitude_m, g) => {
          const a = requiredDistances({ ...basis, working_Vrms: volts, altitude_m, grade: g })
          const b = requiredDistances({
            ...basis,
            working_Vrms: volts * factor,
            altitude_m: altitude_m + 100,
            grade: g,
          })
          const r = requiredDistances({ ...basis, working_Vrms: volts, altitude_m, grade: 'reinforced' })
          return (
            b.creepage_m >= a.creepage_m - 1e-12 &&
            b.clearance_m >= a.clearance_m - 1e-12 &&
            r.creepage_m >= a.creepage_m &&
            r.clearance_m >= a.clearance_m &&
            a.creepage_m >= a.clearance_m
          )
        },
      ),
      { seed: 5, numRuns: 300 },
    )
  })

  it('says what decides the clearance', () => {
    expect(requiredDistances(basis).clearanceFrom).toBe('mains transient')
    expect(requiredDistances({ ...basis, working_Vpeak: 2400 }).clearanceFrom).toBe('working peak')
    expect(
      requiredDistances({ ...basis, mains_Vrms: 40, grade: 'basic', working_Vrms: 50, working_Vpeak: 70 })
        .clearanceFrom,
    ).toBe('pollution degree')
  })

  it('refuses what the tables do not hold, by name and limit', () => {
    expect(() => requiredDistances({ ...basis, working_Vrms: 1500 })).toThrow(
      /working_Vrms is 1500 V, outside 1 to 1000/,
    )
    expect(() => ratedImpulse(700, 'II')).toThrow(/mains_Vrms/)
  })
})

describe('tape', () => {
  it('needs two layers that each stand the test, three that do not', () => {
    const test = strengthTest(2500, 'reinforced')
    expect(requiredTapeLayers('reinforced', 5000, test)).toBe(2)
    expect(requiredTapeLayers('reinforced', 2500, test)).toBe(3)
    expect(requiredTapeLayers('basic', 5000, test)).toBe(1)
  })
})

describe('barrier walk', () => {
  it('has no blank for a whole build, and claims nothing', () => {
    const w = walkBarrier(whole, basis)
    expect(w.short).toEqual([])
    expect(w.notStated).toEqual([])
    expect(w.links.map((l) => l.link)).toEqual([
      'margin',
      'tape',
      'sleeving',
      'pin row',
      'core path',
      'board',
      'optocoupler',
      'optocoupler strength',
      'Y capacitor',
    ])
    expect(w.note).toMatch(/^guide; check the current local code/)
    expect(JSON.stringify(w)).not.toMatch(/\bsafe\b|complies|compliant/i)
  })

  it.each([
    ['margin', { margin_m: 2e-3 }],
    ['tape', { tapeLayers: 1 }],
    ['sleeving', { sleeving: false }],
    ['pin row', { rowsSeparate: false }],
    ['core path', { primaryToCore_m: 1e-3 }],
    ['board', { boardCreepage_m: 3e-3 }],
    ['optocoupler', { optocouplerCreepage_m: 4e-3 }],
    ['optocoupler strength', { optocouplerIsolation_Vrms: 2500 }],
    ['Y capacitor', { yCapacitorClass: 'Y2' }],
    ['Y capacitor', { yCapacitorClass: 'unrated' }],
  ] as const)('flags %s when it falls short: %o', (link, change) => {
    expect(walkBarrier({ ...whole, ...change }, basis).short).toEqual([link])
  })

  it('lists what the builder has not said', () => {
    expect(walkBarrier({ ...whole, margin_m: null, sleeving: null }, basis).notStated).toEqual([
      'margin',
      'sleeving',
    ])
  })

  it('asks triple-insulated wire for its grade instead of margins', () => {
    const wire: BarrierBuild = {
      ...whole,
      insulation: 'triple-insulated',
      wireGrade: 'reinforced',
      margin_m: null,
      tapeLayers: 1,
    }
    expect(walkBarrier(wire, basis).short).toEqual([])
    expect(walkBarrier(wire, basis).links.some((l) => l.link === 'margin')).toBe(false)
    expect(walkBarrier({ ...wire, wireGrade: 'basic' }, basis).short).toEqual(['wire'])
  })

  it('asks half of everything for basic insulation', () => {
    const half = {
      ...whole,
      margin_m: 1.3e-3,
      tapeLayers: 1,
      sleeveWall_m: 0.1e-3,
      yCapacitorClass: 'Y2' as const,
    }
    expect(walkBarrier(half, { ...basis, grade: 'basic' }).short).toEqual([])
  })

  it('lets a slot of one millimetre trade creepage for clearance', () => {
    const slotted = { ...whole, boardCreepage_m: 3.2e-3, boardSlot_m: 1e-3 }
    expect(walkBarrier(slotted, basis).short).toEqual([])
    expect(walkBarrier({ ...slotted, boardSlot_m: 0.5e-3 }, basis).short).toEqual(['board'])
  })
})
