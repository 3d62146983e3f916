import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { judged } from '../../../../test/reference/bench/supplies.ts'
import type { r1 } from '../../../../test/reference/r1/r1.ts'
import { limits } from '../../limits/index.ts'
import { currentAtFall, fluxAtCurrent, inductanceAtCurrent } from '../../magnetics/material/index.ts'
import { type AsBuilt, emptyBench, type Measured } from '../../supply/bench-log.ts'
import { woundCoreAt } from '../../supply/transformer/index.ts'
import { plannedBands } from '../../supply/transformer/planned-bands.ts'
import { transformerGate } from '../transformer-gate.ts'
import { readInsulation } from './insulation-test.ts'
import { readRatios } from './volts-ratio.ts'

const { evaluation } = judged()
const { design } = evaluation
const t = design.transformer
const bands = plannedBands(design)
const read = (value: number, accuracy: number | null = null): Measured => ({
  value,
  instrument: 'meter',
  frequency_Hz: null,
  accuracy,
})
const built = (readings: Partial<AsBuilt>): AsBuilt => ({ ...emptyBench().asBuilt, ...readings })
const gate = (readings: Partial<AsBuilt>) => transformerGate(evaluation, built(readings))
const said = (readings: Partial<AsBuilt>) =>
  gate(readings)
    .findings.map((f) => f.message)
    .join(' ')

describe('a saturation pulse', () => {
  // B = L I / (N A), any textbook of magnetics. The iron's curve with the gap has its inductance halved near that current.
  test('is expected where the inductance of the gapped core has about halved', () => {
    const half = currentAtFall(woundCoreAt(design, 25), 0.5)
    expect(half.ok && half.value / bands.saturation.typical).toBeGreaterThan(0.9)
    expect(half.ok && half.value / bands.saturation.typical).toBeLessThan(1.1)
  })

  test('as planned: gap and material as assumed, cold and hot beside the greatest limit', () => {
    const g = gate({
      saturationCurrent_A: read(bands.saturation.typical),
      primaryInductance_H: read(bands.inductance.typical),
    })
    expect(g.verdict).toBe('accept')
    expect(g.findings[0]).toMatchObject({ level: 0, field: 'saturationCurrent_A' })
    expect(g.findings[0]!.message).toMatch(/gap and material are as assumed.*490 mT at the bend, 490 mT/)
    // The data: 490 mT at 25 °C and 390 mT at 100 °C; the core is judged at 100 °C or hotter.
    const hot = /hot it comes down to about ([\d.]+)/.exec(g.findings[0]!.message)!
    expect(Number(hot[1]) / bands.saturation.typical).toBeLessThanOrEqual(0.8)
    expect(g.findings[0]!.message).not.toMatch(/do not power/)
  })

  test('half the gap bends at about half: the gap is named, not the material', () => {
    const g = gate({
      saturationCurrent_A: read(0.55 * bands.saturation.typical),
      primaryInductance_H: read(bands.inductance.typical / 0.55),
    })
    expect(g.verdict).toBe('reject')
    expect(g.findings[0]!.message).toMatch(/material as assumed.*gap is smaller/)
    expect(g.reasons.join(' ').match(/do not power/g)).toHaveLength(1)
  })

  test('right inductance but an early bend: the material or section is named, and a new core', () => {
    const g = gate({
      saturationCurrent_A: read(0.6 * bands.saturation.typical),
      primaryInductance_H: read(bands.inductance.typical),
    })
    expect(g.verdict).toBe('reject')
    expect(g.findings[0]!.message).toMatch(/another material, a smaller section, or turns missing/)
    expect(g.fixes.map((f) => f.effort)).toContain('new core')
  })

  test('alone it cannot tell gap from material, and says so', () => {
    expect(said({ saturationCurrent_A: read(0.5 * bands.saturation.typical) })).toMatch(
      /gap is too small, or the material saturates early; the inductance tells which.*do not power/,
    )
    expect(said({ saturationCurrent_A: read(2 * bands.saturation.typical) })).toMatch(
      /gap is larger than planned, or turns are missing/,
    )
  })

  // What the gate forbids the limits do not let pass, and the other way round.
  test.each([0.4, 0.6, 0.7, 0.8, 0.9, 1, 1.3, 2])('at %f times the plan limits and gate agree', (times) => {
    const asBuilt = {
      saturationCurrent_A: read(times * bands.saturation.typical),
      primaryInductance_H: read(bands.inductance.typical, 0.02),
    }
    const g = gate(asBuilt)
    const kept = judged({ asBuilt } as Parameters<typeof r1>[0])
    const broken = limits(kept.evaluation).some((l) => l.id === 'core.saturation' && !l.holds)
    expect(/do not power/.test(g.reasons.join(' '))).toBe(broken)
    expect(broken).toBe(limits(g.evaluation).some((l) => l.id === 'core.saturation' && !l.holds))
  })

  test('an early bend lowers the saturation of everything after it in proportion; a late one raises nothing', () => {
    const saturation_T = (times: number) =>
      gate({
        saturationCurrent_A: read(times * bands.saturation.typical),
        primaryInductance_H: read(bands.inductance.typical),
      }).numbers.saturation_T
    expect(saturation_T(0.75) / saturation_T(1)).toBeCloseTo(0.75, 6)
    expect(saturation_T(1.5)).toBe(saturation_T(1))
  })

  test('the lowered curve bends where the pulse did', () => {
    const share = 0.7
    const d = gate({ saturationCurrent_A: read(share * bands.saturation.typical) }).evaluation.design
    const [before, after] = [woundCoreAt(design, 25), woundCoreAt(d, 25)].map((core) => {
      const current = currentAtFall(core, 0.5)
      if (!current.ok) throw new Error('no bend')
      const flux = fluxAtCurrent(core, current.value)
      const left = inductanceAtCurrent(core, current.value)
      return { current_A: current.value, flux_T: flux.ok && flux.value, left_H: left.ok && left.value }
    })
    expect(after!.current_A / before!.current_A).toBeCloseTo(share, 1)
    expect(after!.left_H).toBeCloseTo(Number(before!.left_H), 5)
  })
})

describe('volts ratios', () => {
  const ratio = (turns: number, primary = t.primaryTurns) => primary / turns

  test('as planned', () => {
    const g = gate({
      secondaryVoltsRatio: read(ratio(t.secondaryTurns)),
      biasVoltsRatio: read(ratio(t.biasTurns)),
    })
    expect(g.verdict).toBe('accept')
    expect(g.findings.map((f) => f.level)).toEqual([0, 0])
    expect(g.findings[0]!.message).toMatch(/8 turns of secondary to 63 of primary, as planned/)
  })

  // V1 / V2 = N1 / N2: Faraday's law. Reference supply: 63 to 8 to 9 turns.
  test('a secondary turn too many is named, with the reflected voltage that comes of it', () => {
    const g = gate({ secondaryVoltsRatio: read(ratio(9)), biasVoltsRatio: read(ratio(9)) })
    expect(g.verdict).toBe('reject')
    expect(g.reasons.join(' ')).toMatch(/as of 9 turns where 8 are planned, 1 turn too many/)
    const now = /the reflected voltage is then ([\d.]+)/.exec(g.reasons.join(' '))!
    expect(Number(now[1]) / t.reflectedVoltage_V).toBeCloseTo(8 / 9, 2)
    expect(g.fixes.at(-1)!.what).toMatch(/wind 8 secondary turns/)
  })

  test('both off alike is one miscount of the primary', () => {
    const found = readRatios(
      design,
      built({ secondaryVoltsRatio: read(53 / 8), biasVoltsRatio: read(53 / 9) }),
    )
    expect(found).toHaveLength(1)
    expect(found[0]!.message).toMatch(
      /as of about 53 primary turns where 63 are planned, about 10 turns missing/,
    )
  })

  test('one reading alone leaves the primary open, and says so', () => {
    expect(said({ secondaryVoltsRatio: read(ratio(7)) })).toMatch(
      /as of 7 turns .* or about 7[12] primary turns; the other winding's volts tell which/,
    )
  })

  test('half a turn fits no whole number', () => {
    expect(said({ secondaryVoltsRatio: read(ratio(8.5), 0.01) })).toMatch(
      /no whole number of secondary turns fits/,
    )
  })

  test('a meter too rough for one turn is told so', () => {
    expect(said({ secondaryVoltsRatio: read(ratio(8), 0.2) })).toMatch(/one turn more or less would not show/)
  })

  test('every miscount that the meter can tell is named in whole turns, none of a right coil', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 20, max: 200 }),
        fc.integer({ min: 2, max: 20 }),
        fc.integer({ min: -3, max: 3 }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: -1, max: 1, noNaN: true }),
        (primaryTurns, secondaryTurns, miscount, split, noise) => {
          const wound = secondaryTurns + miscount
          if (wound < 1) return
          const accuracy = 0.005
          const share = t.leakage_H.typical / t.primaryInductance_H.typical
          const d = { ...design, transformer: { ...t, primaryTurns, secondaryTurns } }
          const value = (primaryTurns / wound) * (1 + split * share) * (1 + noise * accuracy)
          const [found] = readRatios(d, built({ secondaryVoltsRatio: read(value, accuracy) }))
          if (miscount === 0) expect(found!.level).toBe(0)
          else {
            expect(found!.level).toBe(2)
            expect(found!.message).toContain(
              `as of ${wound === 1 ? '1 turn' : `${wound} turns`} where ${secondaryTurns} are planned`,
            )
          }
        },
      ),
      { seed: 7, numRuns: 300 },
    )
  })
})

describe('an insulation test', () => {
  const at = (value: number, test_V: number | null) => readInsulation({ ...read(value), test_V })
  test('bands by common practice: 100 MΩ at least, 1 GΩ dry and clean, at 500 V dc', () => {
    expect(at(99e6, 500)).toMatchObject({ level: 2 })
    expect(at(99e6, 500).message).toMatch(/do not fit/)
    expect(at(101e6, 500)).toMatchObject({ level: 1 })
    expect(at(2e9, 500)).toMatchObject({ level: 0 })
    expect(at(2e9, 500).message).toMatch(/certifies nothing.*local codes/)
  })
  test('a few volts prove nothing, whatever they read; a weak barrier is weak at any voltage', () => {
    expect(at(10e9, 9)).toMatchObject({ level: 1 })
    expect(at(10e9, null).message).toMatch(/the test voltage is not noted/)
    expect(at(10e6, 9)).toMatchObject({ level: 2 })
    expect(at(2e9, 9).fixes[0]!.what).toMatch(/discharge/)
  })
  test('never says that something is safe or complies', () => {
    for (const value of [1e6, 2e8, 5e9])
      for (const volts of [null, 9, 250, 500, 1000])
        expect(JSON.stringify(at(value, volts))).not.toMatch(/\bsafe|compl(y|ies)/i)
  })
  test('below the least the transformer is rejected', () => {
    expect(gate({ insulation_ohm: { ...read(5e6), test_V: 500 } }).verdict).toBe('reject')
  })
})

test('what was measured is kept in the design that everything else uses', () => {
  const asBuilt = { saturationCurrent_A: read(0.7 * bands.saturation.typical) }
  const kept = judged({ asBuilt } as Parameters<typeof r1>[0]).evaluation.design
  expect(kept.ferrite.curve.tableFlux_T[0]! / design.ferrite.curve.tableFlux_T[0]!).toBeCloseTo(0.7, 6)
  expect(plannedBands(kept).saturation).toEqual(bands.saturation)
  expect(kept.transformer.primaryTurns).toBe(t.primaryTurns)
})
