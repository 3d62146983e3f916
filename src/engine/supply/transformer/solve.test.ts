import { beforeAll, describe, expect, it } from 'vitest'
import { trapezoidRms_A } from '../../converter/waveform.ts'
import { demoSupplies } from '../../demo/index.ts'
import { conditionById } from '../condition.ts'
import type { Design } from '../design.ts'
import { at, evaluate, resolve } from '../evaluate.ts'
import type { Supply } from '../supply.ts'
import { inductanceAgainstCurrent, inductanceAgainstGap } from './inductance-curves.ts'
import { withOthersShorted } from './inductances.ts'
import { momentMaps } from './maps.ts'
import { conductorChoices } from './optimum.ts'
import { type SolvedTransformer, solveTransformer } from './solve.ts'

const designOf = (supply: Supply): Design => {
  const design = resolve(supply)
  if (!design.ok) throw new Error(design.problems[0]?.message)
  return design.value
}
const full = conditionById.get('nominal-100')!
const solvedOf = (design: Design): SolvedTransformer => {
  const solved = solveTransformer(design, full)
  if (!solved.ok) throw new Error(solved.problems[0]?.message)
  return solved.value
}
const rms = (time: readonly number[], value: readonly number[], period: number): number => {
  let sum = 0
  for (let i = 1; i < time.length; i++) {
    const [a, b] = [value[i - 1]!, value[i]!]
    sum += ((time[i]! - time[i - 1]!) * (a * a + a * b + b * b)) / 3
  }
  return Math.sqrt(sum / period)
}

describe.each(demoSupplies().map((supply) => ({ name: supply.name, supply })))('$name', ({ supply }) => {
  let design: Design
  let solved: SolvedTransformer
  beforeAll(() => {
    design = designOf(supply)
    solved = solvedOf(design)
  })

  it('runs on the currents that the readings tell of', () => {
    const { currents } = solved.answer
    const { readings } = at(evaluate(design), 'nominal-100')!
    const { primary, secondary } = currents.waves
    const period = 1 / currents.frequency_Hz
    const scale = Math.sqrt(currents.share)
    expect(scale * rms(primary.time_s, primary.current_A, period)).toBeCloseTo(readings.primary_Arms, 6)
    expect(scale * rms(secondary.time_s, secondary.current_A, period)).toBeCloseTo(readings.secondary_Arms, 6)
    // The reading has on top what leakage and drain capacitance ring, which heats no copper.
    expect(Math.max(...secondary.current_A)).toBeLessThan(readings.secondaryPeak_A)
  })

  it('has a symmetric inductance matrix that stores energy, with less leakage the more is shorted', () => {
    const { inductances, leakage_H } = solved.answer
    const { matrix_H: m, coupling } = inductances
    for (const [i, j] of [
      [0, 1],
      [0, 2],
      [1, 2],
    ] as const) {
      expect(m[i * 3 + j]! / m[j * 3 + i]!).toBeCloseTo(1, 9)
      expect(coupling[i * 3 + j]).toBeGreaterThan(0.9)
      expect(coupling[i * 3 + j]).toBeLessThan(1)
    }
    expect(inductances.leakageAllShorted_H).toBeGreaterThan(0)
    expect(inductances.leakageAllShorted_H).toBeLessThan(leakage_H.field)
  })

  // 15 %: what a depth-one reading may be off from the field, as the page promises.
  it('finds leakage and copper loss near the closed form, and says both', () => {
    const { leakage_H, copper_W } = solved.answer
    expect(Math.abs(leakage_H.closed / leakage_H.field - 1)).toBeLessThan(0.15)
    expect(Math.abs(copper_W.closed / copper_W.field - 1)).toBeLessThan(0.15)
  })

  it('splits copper loss without loss: layers and leads, dc and harmonics', () => {
    const { copper } = solved.answer
    const layers = copper.layers.reduce((sum, l) => sum + l.dc_W + l.ac_W, 0)
    expect((layers + copper.tails_W) / copper.total_W).toBeCloseTo(1, 9)
    const harmonics = copper.harmonics_W.reduce((sum, w) => sum + w, 0)
    expect((harmonics + copper.dc_W) / copper.total_W).toBeCloseTo(1, 9)
    // Skin and proximity only add: each winding costs at least its rms current in its dc resistance; the harmonics
    // beyond the twentieth, under 3 % of a ramp's square, are not counted.
    const { currents, inductances } = solved.answer
    const least = inductances.windings.reduce((sum, winding, w) => {
      const wave = currents.waves[winding as 'primary']
      const current = rms(wave.time_s, wave.current_A, 1 / currents.frequency_Hz)
      return sum + currents.share * copper.dcResistance_ohm[w]! * current ** 2
    }, 0)
    expect(copper.total_W).toBeGreaterThan(0.97 * least)
  })

  // The flux is a triangle, for which the reading uses a form of its own; only the temperatures differ a little.
  it('finds the core loss of the true waveform', () => {
    const { core_W, core } = solved.answer
    expect(Math.abs(core_W.field / core_W.closed - 1)).toBeLessThan(0.03)
    expect(core.flux_T[0]).toBeCloseTo(core.flux_T.at(-1)!, 12)
  })

  it('puts the strongest field beside the gap while the primary alone carries current', () => {
    const { on, leakage } = momentMaps(solved.field, solved.answer.currents, 24, 30)
    const magnitude = (map: typeof on, c: number, r: number) =>
      Math.hypot(map.axial_T[c * map.rows + r]!, map.radial_T[c * map.rows + r]!)
    let [most, where] = [0, 0]
    for (let c = 0; c < on.columns; c++)
      for (let r = 0; r < on.rows; r++)
        if (magnitude(on, c, r) > most) [most, where] = [magnitude(on, c, r), r]
    if (design.transformer.gapPlace === 'post') expect(Math.abs(where - 14.5)).toBeLessThan(3)
    expect(magnitude(leakage, 0, 15)).toBeLessThan(most)
  })

  it('meets the planned inductance at the planned gap, and keeps it until the ferrite bends', () => {
    const t = design.transformer
    const curve = inductanceAgainstGap(design, 200)
    const i = curve.x.findIndex((gap) => gap >= t.gap_m)
    const share = Math.log(t.gap_m / curve.x[i - 1]!) / Math.log(curve.x[i]! / curve.x[i - 1]!)
    const there = curve.typical_H[i - 1]! + share * (curve.typical_H[i]! - curve.typical_H[i - 1]!)
    expect(there / t.plannedInductance_H.typical).toBeCloseTo(1, 3)
    const cold = inductanceAgainstCurrent(design, 25, 5, 400)
    const hot = inductanceAgainstCurrent(design, 100, 5, 400)
    // The magnetisation curve starts at the amplitude permeability of its points, above the initial one.
    expect(cold.inductance_H[0]! / t.plannedInductance_H.typical).toBeGreaterThan(0.97)
    expect(cold.inductance_H[0]! / t.plannedInductance_H.typical).toBeLessThan(1.15)
    for (let k = 1; k < hot.x.length; k++)
      expect(hot.inductance_H[k]).toBeLessThanOrEqual(hot.inductance_H[k - 1]! * (1 + 1e-9))
    const knee = (curve: typeof hot) => curve.inductance_H.findIndex((L) => L < 0.8 * curve.inductance_H[0]!)
    expect(knee(hot)).toBeLessThan(knee(cold))
  })

  it('has a best conductor between too thin and too thick', () => {
    for (const winding of ['primary', 'secondary'] as const)
      for (const { curve, now } of conductorChoices(design, solved.answer.currents, winding, 80)) {
        expect(curve.best.y).toBeLessThanOrEqual(now.y * (1 + 1e-9))
        expect(curve.best.y).toBeLessThan(curve.y[0]!)
      }
  })
})

describe('all others shorted', () => {
  it('leaves L1 (1 − k²) of two windings', () => {
    const k = 0.98
    const matrix = [1e-3, k * Math.sqrt(1e-3 * 1e-5), k * Math.sqrt(1e-3 * 1e-5), 1e-5]
    expect(withOthersShorted(matrix, 2, 0)).toBeCloseTo(1e-3 * (1 - k * k), 12)
  })
})

describe('refusals', () => {
  const [first] = demoSupplies()
  it('a shorted output', () => {
    const solved = solveTransformer(designOf(first!), conditionById.get('short')!)
    expect(solved.ok).toBe(false)
  })
  it('an inductance that the bare coil would have', () => {
    const primaryInductance_H = { value: 2e-6, instrument: 'LCR', frequency_Hz: 1e4, accuracy: 0.01 }
    const read = resolve({
      ...first!,
      bench: { ...first!.bench, asBuilt: { ...first!.bench.asBuilt, primaryInductance_H } },
    })
    const solved = read.ok ? solveTransformer(read.value, full) : read
    expect(solved.ok).toBe(false)
  })
})

it('trapezoid rms of the waves is that of the textbook', () => {
  expect(rms([0, 0, 0.4, 0.4], [0, 0.3, 0.9, 0], 1)).toBeCloseTo(trapezoidRms_A(0.9, 0.3, 0.4), 12)
})
