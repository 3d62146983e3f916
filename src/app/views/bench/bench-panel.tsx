import { memo, Suspense } from 'react'
import type { Limit } from '../../../engine/limits/limit.ts'
import type { Evaluation } from '../../../engine/supply/evaluation.ts'
import { reference, type Spot } from '../../../engine/supply/refs.ts'
import { Boundary } from '../../controls/boundary.tsx'
import { Icon } from '../../controls/icon.tsx'
import { type BenchView, go, type Route } from '../../state/route.ts'
import { useStore } from '../../state/store.ts'
import { benchStrings as words } from '../../strings/bench.ts'
import { toggleWide, wideBench } from '../work/sections.ts'
import { availableViews, viewOf } from './slots.tsx'
import { SpotCard } from './spot-card.tsx'

type SupplyRoute = Extract<Route, { at: 'supply' }>

const Tabs = ({ route, view, wide }: { route: SupplyRoute; view: BenchView; wide: boolean }) => (
  <nav className="tabs" aria-label={words.viewsLabel}>
    {availableViews.map((name) => (
      <button
        key={name}
        type="button"
        aria-current={name === view ? 'page' : undefined}
        onClick={() => go({ ...route, view: name, focus: null })}
      >
        {words.views[name]}
      </button>
    ))}
    <span className="tabs-end">
      <span className="depth" title={view === 'waveforms' ? words.depthSolvedMeans : words.depthMeans}>
        {view === 'waveforms' ? words.depthSolved : words.depth}
      </span>
      <button type="button" className="enlarge" aria-pressed={wide} onClick={toggleWide}>
        <Icon name={wide ? 'shrink' : 'enlarge'} /> {wide ? words.shrink : words.enlarge}
      </button>
    </span>
  </nav>
)

/** The middle of the working view: the drawing, or what is read from the supply. */
export const BenchPanel = memo(
  ({
    route,
    evaluation,
    limits,
    pickLimit,
    undo,
  }: {
    route: SupplyRoute
    evaluation: Evaluation
    limits: readonly Limit[]
    pickLimit: (id: string) => void
    undo: () => void
  }) => {
    const view = route.view !== null && availableViews.includes(route.view) ? route.view : availableViews[0]!
    const View = viewOf(view)
    const wide = useStore(wideBench, (w) => w)
    const spot = route.focus !== null && route.focus in reference ? (route.focus as Spot) : null
    return (
      <>
        <Tabs route={route} view={view} wide={wide} />
        <Boundary key={view} resetOn={evaluation} undo={undo}>
          <Suspense fallback={<div className="view-waits" />}>
            <View
              evaluation={evaluation}
              limits={limits}
              pick={(focus) => go({ ...route, view, focus }, true)}
            >
              {spot !== null && (
                <SpotCard
                  spot={spot}
                  evaluation={evaluation}
                  limits={limits}
                  pickLimit={pickLimit}
                  close={() => go({ ...route, focus: null }, true)}
                />
              )}
            </View>
          </Suspense>
        </Boundary>
      </>
    )
  },
)
