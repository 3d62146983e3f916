import type { CoreWindow, StackInput, StackLayout } from './types.ts'

/** Length of string round a barrel (m). */
export const barrelPerimeter_m = (barrel: StackInput['former']['barrel']): number =>
  barrel.section === 'round' ? Math.PI * barrel.diameter_m : 2 * (barrel.width_m + barrel.depth_m)

/**
 * Length of one turn (m) whose wire axis lies `height_m` above the barrel. Round barrels and rectangular ones
 * alike: wire bends round a corner on an arc of that height, so L = perimeter + 2π · height.
 */
export const turnLength_m = (perimeter_m: number, height_m: number): number =>
  perimeter_m + 2 * Math.PI * height_m

/**
 * Height above the barrel at which the core ends the winding space (m): window width less what lies between post
 * and barrel. Rectangular barrels use the closer of their two sides.
 */
export const coreLimit_m = (core: CoreWindow, former: StackInput['former']): number =>
  core.width_m - postDistance_m(core, former)

/** Distance from the post's surface to the outside of the barrel (m), not less than nothing. */
export const postDistance_m = (core: CoreWindow, former: StackInput['former']): number => {
  const { barrel } = former
  if (barrel.section === 'round' && core.post.section === 'round')
    return Math.max(0, (barrel.diameter_m - core.post.diameter_m) / 2)
  if (barrel.section === 'rectangular' && core.post.section === 'rectangular')
    return Math.max(
      0,
      Math.min((barrel.width_m - core.post.width_m) / 2, (barrel.depth_m - core.post.depth_m) / 2),
    )
  return former.wall_m
}

/**
 * Width of the window for field purposes (m): the core's own, or as much as a winding that does not fit would need,
 * so that its field stays defined.
 */
export const fieldWidth_m = (layout: StackLayout): number =>
  Math.max(layout.input.core.width_m, postDistance_m(layout.input.core, layout.input.former) + layout.build_m)
