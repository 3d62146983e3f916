import { type InsulationBasis, requiredDistances } from './distances.ts'
import { requiredTapeLayers, strengthTest } from './strength.ts'
import { guideNote, solidLayer_m } from './tables.ts'

/** What stands between primary and secondary in this build; null where the builder has not said. */
export interface BarrierBuild {
  readonly insulation: 'margins' | 'triple-insulated'
  /** Triple-insulated wire's own grade, when it is used. */
  readonly wireGrade: 'basic' | 'reinforced' | null
  readonly margin_m: number | null
  readonly tapeLayers: number | null
  readonly tapeStrength_V: number | null
  readonly sleeving: boolean | null
  readonly sleeveWall_m: number | null
  readonly pinRowDistance_m: number | null
  /** True where primary and secondary leave on different pin rows. */
  readonly rowsSeparate: boolean | null
  readonly primaryToCore_m: number | null
  readonly coreToSecondary_m: number | null
  readonly boardCreepage_m: number | null
  readonly boardSlot_m: number | null
  readonly optocouplerCreepage_m: number | null
  readonly optocouplerIsolation_Vrms: number | null
  /** Null: no capacitor across the barrier. */
  readonly yCapacitorClass: 'Y1' | 'Y2' | 'unrated' | null
}

export type LinkName =
  | 'margin'
  | 'tape'
  | 'wire'
  | 'sleeving'
  | 'pin row'
  | 'core path'
  | 'board'
  | 'optocoupler'
  | 'optocoupler strength'
  | 'Y capacitor'

export interface BarrierLink {
  readonly link: LinkName
  readonly quantity: string
  readonly unit: 'm' | 'layers' | 'V' | 'class'
  readonly required: number
  readonly achieved: number
  /** Achieved over required; below 1 is short. */
  readonly ratio: number
  readonly verdict: 'meets the guide' | 'short' | 'not stated'
  readonly note: string
}

export interface BarrierWalk {
  readonly links: readonly BarrierLink[]
  readonly short: readonly LinkName[]
  readonly notStated: readonly LinkName[]
  readonly note: string
}

/**
 * Walks the barrier link by link: required by the chosen basis against achieved by the build. A guide for a builder,
 * never a statement about a standard.
 *
 * Margins: primary to secondary creep round the tape over both margins, so each needs half of the creepage. Core path:
 * the core counts as a conductor, primary to core plus core to secondary must reach the whole. Triple-insulated wire
 * replaces margins and tape when its own grade is enough.
 */
export function walkBarrier(build: BarrierBuild, basis: InsulationBasis): BarrierWalk {
  const need = requiredDistances(basis)
  const test_V = strengthTest(need.impulse_V, basis.grade)
  const links: BarrierLink[] = []
  const put = (
    link: LinkName,
    quantity: string,
    unit: BarrierLink['unit'],
    required: number,
    achieved: number | null,
    note = '',
  ): void => {
    const stated = achieved !== null
    const ratio = stated ? achieved / required : 0
    links.push({
      link,
      quantity,
      unit,
      required,
      achieved: achieved ?? 0,
      ratio,
      verdict: stated ? (ratio >= 1 ? 'meets the guide' : 'short') : 'not stated',
      note,
    })
  }

  if (build.insulation === 'margins') {
    put('margin', 'each margin', 'm', need.creepage_m / 2, build.margin_m, 'two margins in series')
    const strength = build.tapeStrength_V
    put(
      'tape',
      'layers between primary and secondary',
      'layers',
      strength === null ? 3 : requiredTapeLayers(basis.grade, strength, test_V),
      build.tapeLayers,
    )
    if (basis.grade === 'reinforced')
      put('sleeving', 'wall where a lead crosses a margin', 'm', solidLayer_m, sleeve(build))
    else put('sleeving', 'leads that cross a margin', 'class', 1, sleeved(build))
  } else {
    const enough = build.wireGrade === 'reinforced' || basis.grade === 'basic'
    put(
      'wire',
      'grade of the insulated wire',
      'class',
      basis.grade === 'reinforced' ? 2 : 1,
      build.wireGrade === null ? null : enough ? 2 : 1,
      'keep its insulation whole to the pin',
    )
    put(
      'tape',
      'layers between primary and secondary',
      'layers',
      1,
      build.tapeLayers,
      'mechanical, as the wire insulates',
    )
  }
  put(
    'pin row',
    'distance of the pin rows',
    'm',
    need.creepage_m,
    build.rowsSeparate === null ? null : build.rowsSeparate ? build.pinRowDistance_m : 0,
    'primary and secondary on different rows',
  )
  const corePath =
    build.primaryToCore_m === null || build.coreToSecondary_m === null
      ? null
      : build.primaryToCore_m + build.coreToSecondary_m
  put(
    'core path',
    'primary to core plus core to secondary',
    'm',
    need.creepage_m,
    corePath,
    'the core counts as a conductor',
  )
  const slotted = build.boardSlot_m !== null && build.boardSlot_m >= 1e-3
  put(
    'board',
    slotted ? 'clearance across the slot' : 'creepage on the board',
    'm',
    slotted ? need.clearance_m : need.creepage_m,
    build.boardCreepage_m,
    slotted ? 'slot of 1 mm or more: the path round its ends still needs the creepage' : '',
  )
  put('optocoupler', 'creepage under the package', 'm', need.creepage_m, build.optocouplerCreepage_m)
  put('optocoupler strength', 'test voltage', 'V', test_V, peak(build.optocouplerIsolation_Vrms))
  put(
    'Y capacitor',
    'class across the barrier',
    'class',
    basis.grade === 'reinforced' ? 2 : 1,
    yRank(build.yCapacitorClass, basis.grade),
    build.yCapacitorClass === null
      ? 'no capacitor across the barrier'
      : 'never a part without a Y class; two Y2 in series are often taken for one Y1',
  )
  return {
    links,
    short: links.filter((l) => l.verdict === 'short').map((l) => l.link),
    notStated: links.filter((l) => l.verdict === 'not stated').map((l) => l.link),
    note: `${guideNote}; hobby tests do not certify anything`,
  }
}

const sleeve = (b: BarrierBuild): number | null =>
  b.sleeving === false ? 0 : b.sleeving === null ? null : b.sleeveWall_m
const sleeved = (b: BarrierBuild): number | null => (b.sleeving === null ? null : Number(b.sleeving))

const peak = (rms: number | null): number | null => (rms === null ? null : rms * Math.SQRT2)

function yRank(kind: BarrierBuild['yCapacitorClass'], grade: 'basic' | 'reinforced'): number {
  if (kind === null) return grade === 'reinforced' ? 2 : 1
  return kind === 'Y1' ? 2 : kind === 'Y2' ? 1 : 0
}
