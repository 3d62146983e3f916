import { surfaceFactor, surfaceRise } from '../../heat/index.ts'
import { type StackField, stackField } from '../../magnetics/field/index.ts'
import type { Condition } from '../condition.ts'
import type { Design } from '../design.ts'
import { operate } from '../evaluate/operate.ts'
import { plantOf } from '../evaluate/plant-of.ts'
import { handoverLeakage_H } from '../resolve/secondary-path.ts'
import { fail, type Result, succeed } from '../result.ts'
import { type CopperHeat, copperHeat } from './copper.ts'
import { type CoreHeat, coreHeat } from './core-heat.ts'
import { type WindingCurrents, waveHarmonics, windingCurrents } from './currents.ts'
import { inductanceFactorOf, trueGap_m, wallGaps } from './gaps.ts'
import { type Inductances, inductancesOf } from './inductances.ts'

/** A figure by the closed form that every reading uses, and by the field. */
export interface Both {
  readonly closed: number
  readonly field: number
}

/** The transformer as wound, at one condition, by the field solution. */
export interface TransformerAnswer {
  readonly currents: WindingCurrents
  readonly inductances: Inductances
  /** At the primary with the secondary shorted, the bias winding open. */
  readonly leakage_H: Both
  readonly copper: CopperHeat
  readonly copper_W: Both
  readonly core: CoreHeat
  readonly core_W: Both
  /** Loss of the clamp with either leakage, clamp parts as they are. */
  readonly clamp_W: Both
  /** Temperature of the transformer with either loss. */
  readonly temperature_C: Both
  readonly gap_m: number
}

/** An answer with the field that it came from, for maps and gap loss of the same winding. */
export interface SolvedTransformer {
  readonly answer: TransformerAnswer
  readonly field: StackField
}

const mostRounds = 5
/** Losses beyond this are no working point of a small transformer. */
const mostLoss_W = 1e3

/**
 * Solves the window's field for a design and reads it at a condition: leakage and coupling, winding resistances at 20
 * harmonics of the true currents, copper loss by layer, core loss of the true flux, and the temperature that goes with
 * them (copper resistance and temperature agree within 0.5 K). Errors: an output that is shorted, a condition at which
 * the supply does not run, a field without solution, an inductance below that of the window without a core.
 */
export function solveTransformer(d: Design, condition: Condition): Result<SolvedTransformer> {
  if (condition.kind === 'short')
    return fail(
      'condition',
      'with the output shorted the currents have no repeating cycle: choose another condition',
    )
  const plant = plantOf(d)
  const o = operate(plant, condition)
  if (o === null) return fail('condition', 'the supply does not run at this condition')
  const frequency_Hz = plant.frequency_Hz.typical
  const field = stackField(d.transformer.coil.layout, wallGaps(d))
  const inductances = inductancesOf(field, inductanceFactorOf(d))
  if (inductances === null)
    return fail(
      'bench.asBuilt.primaryInductance_H',
      'the inductance is no more than the coil would have without a core: look for a shorted turn',
    )
  const currents = windingCurrents(o, frequency_Hz, plant.chipSupply_A)
  const harmonics = waveHarmonics(currents, inductances.windings)
  let temperature_C = o.transformer_C
  let copper: CopperHeat
  let core: CoreHeat
  for (let round = 0; ; round++) {
    const heat = copperHeat(field, harmonics, frequency_Hz, currents.share, temperature_C)
    if (!heat.ok) return heat
    const iron = coreHeat(d, o, frequency_Hz, temperature_C)
    if (!iron.ok) return iron
    copper = heat.value
    core = iron.value
    const loss_W = Math.min(mostLoss_W, copper.total_W + core.total_W)
    const next_C = Math.min(
      400,
      o.inside_C + surfaceFactor[plant.cooling] * surfaceRise(loss_W, plant.transformerSurface_m2),
    )
    const moved = Math.abs(next_C - temperature_C)
    temperature_C = next_C
    if (moved < 0.5 || round === mostRounds) break
  }
  const at = inductances.windings
  const fieldLeakage_H = inductances.leakage_H[at.indexOf('primary') * at.length + at.indexOf('secondary')]!
  const closedLeakage_H = d.transformer.coil.leakage_H
  const clamp_W = (leakage_H: number): number => {
    const coil = { minimum: leakage_H, typical: leakage_H, maximum: leakage_H }
    const whole = handoverLeakage_H(coil, d.transformer.turnsRatio)
    return operate({ ...plant, leakage_H: whole }, condition, o.stage_W)?.losses.clamp_W ?? Number.NaN
  }
  const l = o.losses
  return succeed({
    field,
    answer: {
      currents,
      inductances,
      leakage_H: { closed: closedLeakage_H, field: fieldLeakage_H },
      copper,
      copper_W: {
        closed: l.primaryCopper_W + l.secondaryCopper_W + l.biasCopper_W,
        field: copper.total_W,
      },
      core,
      core_W: { closed: l.core_W, field: core.total_W },
      clamp_W: { closed: clamp_W(closedLeakage_H), field: clamp_W(fieldLeakage_H) },
      temperature_C: { closed: o.transformer_C, field: temperature_C },
      gap_m: trueGap_m(d),
    },
  })
}
