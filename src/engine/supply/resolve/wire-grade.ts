import type { Wire } from '../../parts/part.ts'
import type { Design } from '../design.ts'

type Grade = 'basic' | 'reinforced'

const gradeOf = (wire: Wire): Grade | null =>
  wire.construction === 'triple-insulated' ? wire.insulation : null

/**
 * Grade of insulation that the wires themselves put between primary side and secondary; null where enamel would lie
 * on enamel. The secondary alone carries it, or every winding of the primary side: an insulated primary leaves the
 * bias winding, which is on the same side, bare against the secondary.
 */
export function wireGrade({ parts }: Pick<Design, 'parts'>): Grade | null {
  const secondary = gradeOf(parts.secondaryWire)
  if (secondary === 'reinforced') return secondary
  const primary = gradeOf(parts.primaryWire)
  const bias = gradeOf(parts.biasWire)
  if (!primary || !bias) return secondary
  return primary === 'reinforced' && bias === 'reinforced' ? 'reinforced' : 'basic'
}
