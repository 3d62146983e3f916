import { type CoreGeometry, coreGeometry } from '../../magnetics/core/index.ts'
import { type GapModel, gapGeometry, gapModel } from '../../magnetics/gap/index.ts'
import type { CoreWindow } from '../../magnetics/stack/index.ts'
import type { Core } from '../../parts/part.ts'
import { type Result, succeed } from '../result.ts'

/** What follows from a core alone, worked out once for each core. */
export interface CoreFacts {
  readonly geometry: CoreGeometry
  readonly gap: { readonly post: GapModel; readonly 'all-legs': GapModel }
  readonly window: CoreWindow
}

const known = new WeakMap<Core, Result<CoreFacts>>()

/** Geometry, gap models and winding window of a core; kept for as long as the core object lives. */
export function coreFacts(core: Core): Result<CoreFacts> {
  let facts = known.get(core)
  if (!facts) {
    facts = workOut(core)
    known.set(core, facts)
  }
  return facts
}

function workOut(core: Core): Result<CoreFacts> {
  const geometry = coreGeometry(core)
  if (!geometry.ok) return geometry
  const g = geometry.value
  const shape = gapGeometry(g)
  const post = gapModel(shape, 'post')
  if (!post.ok) return post
  const legs = gapModel(shape, 'all-legs')
  if (!legs.ok) return legs
  return succeed({
    geometry: g,
    gap: { post: post.value, 'all-legs': legs.value },
    window: {
      height_m: g.window.height_m,
      width_m: g.window.width_m,
      post:
        g.post.section.kind === 'round'
          ? { section: 'round', diameter_m: g.post.section.diameter_m }
          : { section: 'rectangular', width_m: g.post.section.width_m, depth_m: g.post.section.depth_m },
      coveredFraction: Math.min(1, g.post.enclosed_m / g.post.perimeter_m),
    },
  })
}
