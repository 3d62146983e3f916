import {
  type CurveRequest,
  foilThicknessLoss,
  strandCountLoss,
  strandDiameterLoss,
} from '../../magnetics/field/index.ts'
import { layerFields } from '../../magnetics/stack/index.ts'
import { type Curve, conductorCount, conductorSize_m } from '../../magnetics/wire/index.ts'
import type { WindingName } from '../build.ts'
import type { Design } from '../design.ts'
import { type WindingCurrents, waveHarmonics } from './currents.ts'
import { gapShareOf } from './gaps.ts'

/** Copper loss of one winding against one measure of its conductor, with the present choice. */
export interface ConductorChoice {
  readonly winding: WindingName
  readonly of: 'strand diameter' | 'wires in parallel' | 'foil thickness'
  readonly curve: Curve
  readonly now: { readonly x: number; readonly y: number }
  /** What is held fixed: strands in parallel, or diameter in m, or foil width in m. */
  readonly fixed: number
}

/** Loss at the present choice: read off the curve between its neighbours. */
const onCurve = ({ x, y }: Curve, at: number): number => {
  const last = x.length - 1
  if (at <= x[0]!) return y[0]!
  if (at >= x[last]!) return y[last]!
  let i = 0
  while (x[i + 1]! < at) i++
  const share = Math.log(at / x[i]!) / Math.log(x[i + 1]! / x[i]!)
  return y[i]! + share * (y[i + 1]! - y[i]!)
}

/**
 * Curves that show where the copper loss of a winding is least: strand diameter with the number of strands fixed, number
 * of wires in parallel with their diameter fixed; foil thickness with its width fixed. The field of the layers is taken
 * as it is now; whether more copper fits is a question for the window.
 */
export function conductorChoices(
  d: Design,
  currents: WindingCurrents,
  winding: WindingName,
  temperature_C: number,
): readonly ConductorChoice[] {
  const { layout } = d.transformer.coil
  const share = gapShareOf(d)
  const gap =
    d.transformer.gapPlace === 'post'
      ? { post: share, outerLegs: 0 }
      : { post: share / 2, outerLegs: share / 2 }
  const request: CurveRequest = {
    fields: layerFields(layout, gap),
    winding,
    currents: waveHarmonics(currents, layout.windings),
    frequency_Hz: currents.frequency_Hz,
    temperature_C,
  }
  const { wire, inHand } = layout.input.wires[winding]!
  const size_m = conductorSize_m(wire)
  const choice = (of: ConductorChoice['of'], curve: Curve, at: number, fixed: number): ConductorChoice => {
    const y = curve.y.map((watts) => watts * currents.share)
    const best = { x: curve.best.x, y: curve.best.y * currents.share }
    return {
      winding,
      of,
      curve: { x: curve.x, y, best },
      now: { x: at, y: onCurve({ x: curve.x, y, best }, at) },
      fixed,
    }
  }
  if (wire.construction === 'foil')
    return [
      choice(
        'foil thickness',
        foilThicknessLoss(request, wire.width_m, size_m / 8, size_m * 8),
        size_m,
        wire.width_m,
      ),
    ]
  const strands = conductorCount(wire) * inHand
  return [
    choice(
      'strand diameter',
      strandDiameterLoss(request, strands, Math.min(size_m / 3, 50e-6), Math.max(size_m * 3, 0.6e-3)),
      size_m,
      strands,
    ),
    choice(
      'wires in parallel',
      strandCountLoss(request, size_m, 1, Math.max(8 * strands, 12)),
      strands,
      size_m,
    ),
  ]
}
