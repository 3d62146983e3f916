import { type CoreGeometry, coreGeometry } from '../core/index.ts'
import { fail, type Result, succeed } from '../core/result.ts'
import { coreReluctance, gapForFactor, gapGeometry, gapModel, gapPermeance, mu0 } from '../gap/index.ts'
import { type Grade, gradeOfHalves } from './grade.ts'
import { type CoreReadings, type Estimate, together } from './readings.ts'

export interface Flag {
  readonly code: 'shorted-turn' | 'wrong-turns' | 'gap-order' | 'hidden-gap'
  readonly message: string
}

export interface UnknownCore {
  readonly geometry: CoreGeometry
  /** Inductance factor as found, H per turn squared. */
  readonly factor_H: Estimate
  readonly permeability: Estimate
  readonly grade: Grade
  /** Gap already in the post, if the ferrite is of a usual power class: least, typical, greatest; m. */
  readonly hiddenGap_m: { readonly minimum: number; readonly typical: number; readonly maximum: number }
  /** Turns that the two inductances ask for, whatever the ferrite; null without a gapped reading. */
  readonly turns: Estimate | null
  readonly flags: readonly Flag[]
}

/** Relative permeability that power ferrite may have between its classes, closed halves included. */
const powerFerrite = { minimum: 1200, typical: 2000, maximum: 3200 } as const

/** How well the method of effective parameters knows C1 from true dimensions, and the gap model its permeance. */
const modelAccuracy = { core: 0.04, gap: 0.02 } as const

/**
 * Identity of a core of two halves from calliper and inductance meter: AL = L/N², effective permeability
 * AL C1/mu0, likely grade, hidden gap. With a second reading over a known gap the turns are checked:
 * N² = (1/P(gap)) / (1/L2 - 1/L1), free of the ferrite's permeability.
 * Errors: impossible dimensions, turns below 1, inductances not positive.
 */
export function identifyCore(readings: CoreReadings): Result<UnknownCore> {
  const { turns, ungapped_H, accuracy } = readings
  const geometry = coreGeometry({ shape: readings.shape, dimensions: readings.dimensions })
  if (!geometry.ok) return geometry
  if (!(turns >= 1)) return fail('turns', `the number of turns is ${turns}, but it must be at least 1`)
  if (!(ungapped_H > 0))
    return fail('ungapped_H', `the inductance is ${ungapped_H} H, but it must be above 0`)
  const { effective, post, window } = geometry.value
  const factor_H = ungapped_H / turns ** 2
  const size_m = Math.sqrt(post.area_m2)
  const byCalliper = together(accuracy.calliper_m / size_m, accuracy.calliper_m / (2 * window.width_m))
  const permeability: Estimate = {
    value: (factor_H * effective.C1_per_m) / mu0,
    uncertainty: together(accuracy.inductance, 2 * byCalliper, modelAccuracy.core),
  }
  const model = gapModel(gapGeometry(geometry.value), 'post')
  if (!model.ok) return model
  const gapFor = (mu: number, factor: number) => {
    const gap = gapForFactor(model.value, coreReluctance(effective.C1_per_m, mu), factor)
    return gap.ok ? gap.value : 0
  }
  const up = 1 + together(accuracy.inductance, 2 * byCalliper)
  const hiddenGap_m = {
    minimum: gapFor(powerFerrite.minimum, factor_H * up),
    typical: gapFor(powerFerrite.typical, factor_H),
    maximum: gapFor(powerFerrite.maximum, factor_H / up),
  }
  const grade = gradeOfHalves(permeability.value)
  const flags: Flag[] = []
  if (permeability.value < 20)
    flags.push({
      code: 'shorted-turn',
      message: `${turns} turns read ${(ungapped_H * 1e6).toPrecision(3)} µH on a closed core: look for a shorted turn or a closed loop of foil`,
    })
  else if (hiddenGap_m.minimum > 0)
    flags.push({
      code: 'hidden-gap',
      message: `even poor power ferrite would read more: the core has a gap of about ${(hiddenGap_m.typical * 1e3).toPrecision(2)} mm`,
    })
  const counted = checkTurns(readings, geometry.value, byCalliper)
  if (counted && !counted.ok) return counted
  if (counted?.ok) flags.push(...counted.value.flags)
  return succeed({
    geometry: geometry.value,
    factor_H: { value: factor_H, uncertainty: accuracy.inductance },
    permeability,
    grade,
    hiddenGap_m,
    turns: counted?.ok ? counted.value.turns : null,
    flags,
  })
}

/** Turns from two inductances over a known gap. */
function checkTurns(
  readings: CoreReadings,
  geometry: CoreGeometry,
  byCalliper: number,
): Result<{ turns: Estimate | null; flags: Flag[] }> | null {
  const { gapped, accuracy, ungapped_H } = readings
  if (!gapped) return null
  if (!(gapped.inductance_H > 0))
    return fail('gapped.inductance_H', `the inductance is ${gapped.inductance_H} H, but it must be above 0`)
  if (!(gapped.gap_m > 0)) return fail('gapped.gap_m', `the gap is ${gapped.gap_m} m, but it must be above 0`)
  const model = gapModel(gapGeometry(geometry), gapped.place)
  if (!model.ok) return model
  const difference = 1 / gapped.inductance_H - 1 / ungapped_H
  if (!(difference > 0))
    return succeed({
      turns: null,
      flags: [
        {
          code: 'gap-order',
          message:
            'the inductance with the gap is not below that without: the two readings are swapped or a turn is shorted',
        },
      ],
    })
  const value = Math.sqrt(1 / (gapPermeance(model.value, gapped.gap_m) * difference))
  const onDifference =
    (accuracy.inductance * Math.hypot(1 / gapped.inductance_H, 1 / ungapped_H)) / difference
  // Seating of the film: dust and edges hold it 5 µm off, common practice.
  const seating = 5e-6 / gapped.gap_m
  const uncertainty = together(onDifference, 2 * byCalliper, modelAccuracy.gap, seating) / 2
  const off = value / readings.turns - 1
  const flags: Flag[] =
    Math.abs(off) > Math.max(uncertainty, 0.5 / readings.turns)
      ? [
          {
            code: 'wrong-turns',
            message: `the two inductances ask for ${value.toFixed(1)} turns, not ${readings.turns}: recount, or measure the film again`,
          },
        ]
      : []
  return succeed({ turns: { value, uncertainty }, flags })
}
