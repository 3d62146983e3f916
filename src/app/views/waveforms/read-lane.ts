import { valueAt } from '../../../drawing/waveforms/decimate.ts'
import type { Lane, LaneSeries } from '../../../drawing/waveforms/scope.ts'

/** A lane and how its values are read out. */
export interface ReadLane extends Lane {
  readonly read: (value: number) => string
}

/** Value of every lane at an instant, of the build on show where another lies behind. */
export const readingsAt = (lanes: readonly ReadLane[], at: number) =>
  lanes.map((lane) => {
    const main = lane.series.find((s) => s.style !== 'before') ?? lane.series[0]
    return main ? valueAt(main.x, main.y, at) : 0
  })

/** A series drawn as a plain line. */
export const plainLine = (x: ArrayLike<number>, y: ArrayLike<number>): LaneSeries => ({ x, y, style: 'line' })
