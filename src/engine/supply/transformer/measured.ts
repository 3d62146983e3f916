import { aidingInductance_H, opposingInductance_H } from '../../converter/turns.ts'
import { gapFromMeasurement } from '../../magnetics/gap/index.ts'
import { windingCopper } from '../../magnetics/stack/index.ts'
import { type AsWound, type GapVerdict, judgeGap, readWinding } from '../../magnetics/unknown-core/index.ts'
import { type Spread, withTolerance } from '../../quantity/spread.ts'
import type { Measured } from '../bench-log.ts'
import { windingNames } from '../build.ts'
import type { Design } from '../design.ts'
import { coreReluctanceOf } from './gaps.ts'

/** Accuracy of an LCR meter, and of a resistance reading, where its maker's figure was not noted. */
const usualAccuracy = { inductance: 0.05, resistance: 0.03 }

/** Sense of primary and secondary from their two series inductances. */
export interface SenseVerdict {
  readonly right: boolean
  /** True where the pair cannot tell: the two readings differ by less than the meter's accuracy. */
  readonly unclear: boolean
  readonly aiding_H: { readonly expected: number; readonly measured: number | null }
  readonly opposing_H: { readonly expected: number; readonly measured: number | null }
  /** Coupling factor that the two readings show: (aiding − opposing) / (4 sqrt(L1 L2)). */
  readonly coupling: number | null
}

/** What the finished transformer says of itself. */
export interface MeasuredTransformer {
  readonly factor_H: Spread | null
  readonly gap: GapVerdict | null
  readonly trueGap_m: Spread | null
  readonly winding: AsWound | null
  readonly sense: SenseVerdict | null
  /** Sentences on readings that cannot be made sense of. */
  readonly problems: readonly string[]
}

const accuracyOf = (m: Measured | null, usual: number): number => m?.accuracy ?? usual
const readingOf = (m: Measured | null): number | null => (m === null || m.value === 0 ? null : m.value)

/** Reads the bench's transformer readings of a design against what was planned. */
export function readTransformer(d: Design): MeasuredTransformer {
  const { asBuilt } = d.supply.bench
  const t = d.transformer
  const problems: string[] = []
  const primary_H = readingOf(asBuilt.primaryInductance_H)
  const meter = accuracyOf(asBuilt.primaryInductance_H, usualAccuracy.inductance)
  const model = d.core.gap[t.gapPlace]
  const factor_H = primary_H === null ? null : withTolerance(primary_H / t.primaryTurns ** 2, meter)

  let gap: GapVerdict | null = null
  let trueGap_m: Spread | null = null
  if (primary_H !== null && factor_H !== null) {
    const judged = judgeGap(
      model,
      coreReluctanceOf(d),
      t.primaryTurns,
      { inductance_H: t.plannedInductance_H.typical, gap_m: t.gap_m },
      primary_H,
      meter,
    )
    if (judged.ok) gap = judged.value
    else problems.push(...judged.problems.map((p) => p.message))
    const found = gapFromMeasurement(
      model,
      d.core.geometry.effective.C1_per_m,
      d.parts.material.initialPermeability,
      factor_H,
    )
    if (found.ok) trueGap_m = found.value
  }

  let winding: AsWound | null = null
  const shorted_H = readingOf(asBuilt.leakage_H)
  const secondary_H = readingOf(asBuilt.secondaryInductance_H)
  const resistances = windingNames.flatMap((name) => {
    const measured_ohm = readingOf(asBuilt[`${name}Resistance_ohm`])
    const copper = windingCopper(t.coil.layout, name, 20)
    if (measured_ohm === null || copper === undefined) return []
    return [{ winding: name, measured_ohm, expected_ohm: copper.dcResistance_ohm, turns: copper.turns }]
  })
  if (shorted_H !== null || secondary_H !== null || resistances.length > 0) {
    const read = readWinding({
      primaryTurns: t.primaryTurns,
      secondaryTurns: t.secondaryTurns,
      primary_H: primary_H ?? t.plannedInductance_H.typical,
      ...(secondary_H !== null && { secondary_H }),
      ...(shorted_H !== null && { shorted_H }),
      resistances,
      accuracy: {
        inductance: Math.max(meter, accuracyOf(asBuilt.leakage_H, 0)),
        resistance: accuracyOf(asBuilt.primaryResistance_ohm, usualAccuracy.resistance),
      },
    })
    if (read.ok) winding = read.value
    else problems.push(...read.problems.map((p) => p.message))
  }
  return { factor_H, gap, trueGap_m, winding, sense: senseOf(d, primary_H), problems }
}

function senseOf(d: Design, primary_H: number | null): SenseVerdict | null {
  const { asBuilt } = d.supply.bench
  const aiding = readingOf(asBuilt.aidingInductance_H)
  const opposing = readingOf(asBuilt.opposingInductance_H)
  if (aiding === null && opposing === null) return null
  const t = d.transformer
  const own_H = primary_H ?? t.plannedInductance_H.typical
  const expectedAiding = aidingInductance_H(own_H, t.turnsRatio)
  const expectedOpposing = opposingInductance_H(own_H, t.turnsRatio)
  const accuracy = accuracyOf(
    asBuilt.aidingInductance_H ?? asBuilt.opposingInductance_H,
    usualAccuracy.inductance,
  )
  const both = aiding !== null && opposing !== null
  const right = both
    ? aiding > opposing
    : Math.abs(Math.log((aiding ?? opposing!) / (aiding === null ? expectedOpposing : expectedAiding))) <
      Math.abs(Math.log((aiding ?? opposing!) / (aiding === null ? expectedAiding : expectedOpposing)))
  const apart = both ? Math.abs(aiding / opposing - 1) : Math.abs(expectedAiding / expectedOpposing - 1)
  const secondary_H = readingOf(asBuilt.secondaryInductance_H) ?? own_H / t.turnsRatio ** 2
  return {
    right,
    unclear: apart < 2 * accuracy,
    aiding_H: { expected: expectedAiding, measured: aiding },
    opposing_H: { expected: expectedOpposing, measured: opposing },
    coupling: both ? Math.abs(aiding - opposing) / (4 * Math.sqrt(own_H * secondary_H)) : null,
  }
}
