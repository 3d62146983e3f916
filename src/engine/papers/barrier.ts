import { type BarrierWalk, walkBarrier } from '../insulation/index.ts'
import { insulationBetween } from '../magnetics/stack/index.ts'
import type { Design } from '../supply/design.ts'
import { insulationBasis } from '../supply/resolve/margin.ts'
import { wireGrade } from '../supply/resolve/wire-grade.ts'

/** Wall of usual sleeving. Common practice, no source. */
const sleeveWall_m = 0.41e-3

/** Class of the capacitor across the barrier; one with an X class or none counts as unrated. */
function yClass({ parts }: Design): 'Y1' | 'Y2' | 'unrated' | null {
  if (!parts.yCapacitor) return null
  const { safetyClass } = parts.yCapacitor
  return safetyClass === 'Y1' || safetyClass === 'Y2' ? safetyClass : 'unrated'
}

/** Whether no pin row holds both sides. */
function rowsSeparate({ parts, transformer }: Design): boolean {
  const sides = new Map<number, boolean>()
  for (const item of transformer.stack) {
    if (item.kind === 'tape') continue
    const secondary = item.kind === 'winding' && item.winding === 'secondary'
    const pins = item.kind === 'winding' ? [item.startPin, item.finishPin] : [item.pin]
    for (const pin of pins) {
      if (pin === null) continue
      const row = pin <= parts.former.rowOne ? 1 : 2
      if ((sides.get(row) ?? secondary) !== secondary) return false
      sides.set(row, secondary)
    }
  }
  return true
}

/**
 * The barrier of a design, link by link. Sleeving is taken as the winding sheet asks for it unless the builder left it
 * out; the board is not part of the design and is known once it has been measured. A guide, never a judgement.
 */
export function barrierOf(design: Design): BarrierWalk {
  const { parts, transformer, supply } = design
  const { transformer: asked, unsleeved, boardCreepage_m, boardSlot_m } = supply.build
  const { insulation } = asked
  const pairs = insulationBetween(transformer.coil.layout).filter(
    (pair) => (pair.from === 'secondary') !== (pair.to === 'secondary'),
  )
  const toCore_m = transformer.margin_m + parts.former.flange_m
  const grade = wireGrade(design)
  const walk = walkBarrier(
    {
      insulation,
      wireGrade: grade,
      margin_m: transformer.margin_m,
      tapeLayers: Math.min(...pairs.map((pair) => pair.tapeLayers)),
      tapeStrength_V: parts.tape.strength_V,
      sleeving: !unsleeved,
      sleeveWall_m,
      pinRowDistance_m: parts.former.rowDistance_m,
      rowsSeparate: rowsSeparate(design),
      primaryToCore_m: toCore_m,
      coreToSecondary_m: toCore_m,
      boardCreepage_m: boardCreepage_m ?? null,
      boardSlot_m: boardSlot_m ?? null,
      optocouplerCreepage_m: parts.optocoupler.creepage_m,
      optocouplerIsolation_Vrms: parts.optocoupler.isolation_Vrms,
      yCapacitorClass: yClass(design),
    },
    insulationBasis(design.need, transformer.reflectedVoltage_V),
  )
  if (insulation === 'margins') return walk
  if (grade === null)
    return {
      ...walk,
      links: walk.links.map((link) => (link.link === 'wire' ? { ...link, verdict: 'short' } : link)),
      short: ['wire', ...walk.short],
      notStated: walk.notStated.filter((link) => link !== 'wire'),
    }
  // Insulated wire keeps its winding from the core by itself: the path over the core is not what insulates.
  const links = walk.links.filter((link) => link.link !== 'core path')
  return { ...walk, links, short: walk.short.filter((link) => link !== 'core path') }
}
