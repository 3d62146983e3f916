import {
  fitSteinmetz,
  type LossModel,
  lossModel,
  type SaturationCurve,
  saturationCurve,
} from '../../magnetics/material/index.ts'
import type { Material } from '../../parts/part.ts'
import { type Result, succeed } from '../result.ts'

/** What follows from a ferrite alone, worked out once for each material. */
export interface FerriteFacts {
  readonly loss: LossModel
  readonly curve: SaturationCurve
}

const known = new WeakMap<Material, Result<FerriteFacts>>()

/** Loss model and magnetisation curve of a ferrite; kept for as long as the material object lives. */
export function ferriteFacts(material: Material): Result<FerriteFacts> {
  let facts = known.get(material)
  if (!facts) {
    const fit = fitSteinmetz(material.lossPoints)
    const curve = saturationCurve(material)
    facts = !fit.ok ? fit : !curve.ok ? curve : succeed({ loss: lossModel(fit.value), curve: curve.value })
    known.set(material, facts)
  }
  return facts
}
