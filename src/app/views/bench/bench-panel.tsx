import { lazy, memo, Suspense } from 'react'
import type { Limit } from '../../../engine/limits/limit.ts'
import type { Evaluation } from '../../../engine/supply/evaluation.ts'
import { reference, type Spot } from '../../../engine/supply/refs.ts'
import { type BenchView, go, type Route } from '../../state/route.ts'
import { benchStrings as words } from '../../strings/bench.ts'
import { availableViews } from './slots.ts'

const SchematicView = lazy(() => import('./schematic-view.tsx').then((m) => ({ default: m.SchematicView })))
const ReadingsView = lazy(() => import('./readings-view.tsx').then((m) => ({ default: m.ReadingsView })))
const HeatView = lazy(() => import('./heat-view.tsx').then((m) => ({ default: m.HeatView })))
const SpotCard = lazy(() => import('./spot-card.tsx').then((m) => ({ default: m.SpotCard })))

type SupplyRoute = Extract<Route, { at: 'supply' }>

const Tabs = ({ route, view }: { route: SupplyRoute; view: BenchView }) => (
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
    <span className="depth" title={words.depthMeans}>
      {words.depth}
    </span>
  </nav>
)

const View = ({
  view,
  evaluation,
  limits,
  pick,
}: {
  view: BenchView
  evaluation: Evaluation
  limits: readonly Limit[]
  pick: (spot: string) => void
}) => {
  switch (view) {
    case 'schematic':
      return <SchematicView evaluation={evaluation} limits={limits} pick={pick} />
    case 'heat':
      return <HeatView evaluation={evaluation} limits={limits} />
    default:
      return <ReadingsView evaluation={evaluation} limits={limits} />
  }
}

/** The middle of the working view: the drawing, or what is read from the supply. */
export const BenchPanel = memo(
  ({
    route,
    evaluation,
    limits,
    pickLimit,
  }: {
    route: SupplyRoute
    evaluation: Evaluation
    limits: readonly Limit[]
    pickLimit: (id: string) => void
  }) => {
    const view = route.view !== null && availableViews.includes(route.view) ? route.view : availableViews[0]!
    const spot = route.focus !== null && route.focus in reference ? (route.focus as Spot) : null
    return (
      <>
        <Tabs route={route} view={view} />
        <Suspense fallback={<div className="view-waits" />}>
          <View
            view={view}
            evaluation={evaluation}
            limits={limits}
            pick={(focus) => go({ ...route, view, focus }, true)}
          />
          {spot !== null && (
            <SpotCard
              spot={spot}
              evaluation={evaluation}
              limits={limits}
              pickLimit={pickLimit}
              close={() => go({ ...route, focus: null }, true)}
            />
          )}
        </Suspense>
      </>
    )
  },
)
