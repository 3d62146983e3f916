import { ringGeometry } from '../choke/index.ts'
import { fail, type Result, succeed } from '../core/result.ts'
import { mu0 } from '../gap/index.ts'
import { type Grade, gradeOfRing } from './grade.ts'
import { type Estimate, type MeterAccuracy, together } from './readings.ts'

export interface UnknownRing {
  readonly factor_H: Estimate
  readonly permeability: Estimate
  readonly grade: Grade
}

/** A ring from the drawer: AL = L/N², permeability AL C1/mu0, likely grade. Errors: as the ring's geometry. */
export function identifyRing(
  ring: { readonly outer_m: number; readonly inner_m: number; readonly height_m: number },
  turns: number,
  inductance_H: number,
  accuracy: MeterAccuracy,
): Result<UnknownRing> {
  const geometry = ringGeometry(ring)
  if (!geometry.ok) return geometry
  if (!(turns >= 1)) return fail('turns', `the number of turns is ${turns}, but it must be at least 1`)
  if (!(inductance_H > 0))
    return fail('inductance_H', `the inductance is ${inductance_H} H, but it must be above 0`)
  const factor_H = inductance_H / turns ** 2
  const wall_m = (ring.outer_m - ring.inner_m) / 2
  const permeability = (factor_H * geometry.value.C1_per_m) / mu0
  return succeed({
    factor_H: { value: factor_H, uncertainty: accuracy.inductance },
    permeability: {
      value: permeability,
      // Rounded corners take up to 15 % of a coated ring's section.
      uncertainty: together(
        accuracy.inductance,
        accuracy.calliper_m / wall_m,
        accuracy.calliper_m / ring.height_m,
        0.15,
      ),
    },
    grade: gradeOfRing(permeability),
  })
}
