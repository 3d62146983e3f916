import { useCallback, useDeferredValue, useEffect, useMemo, useState } from 'react'
import type { Supply } from '../../../engine/supply/supply.ts'
import { assessmentOf, withLoopOf } from '../../state/assessment.ts'
import { undoSupply } from '../../state/desk.ts'
import type { Route } from '../../state/route.ts'
import { createStore, useStore } from '../../state/store.ts'
import { benchStrings } from '../../strings/bench.ts'
import { buildStrings } from '../../strings/build.ts'
import { strings } from '../../strings/common.ts'
import { limitStrings } from '../../strings/limits.ts'
import { needStrings } from '../../strings/need.ts'
import { BenchPanel } from '../bench/bench-panel.tsx'
import { ProvedDepth } from '../waveforms/proved-depth.tsx'
import { BuildPanel } from './build-panel.tsx'
import { LimitList } from './limit-list.tsx'
import { NeedPanel } from './need-panel.tsx'
import { wideBench } from './sections.ts'
import { Verdict } from './verdict.tsx'

/** The limit whose reasons are shown, so that a drawing can open one in the list. */
const openLimit = createStore<string | null>(null)

const toggleLimit = (id: string) => openLimit.set((open) => (open === id ? null : id))

/** Opens one limit in the list and brings it into sight. */
const showLimit = (id: string): void => {
  openLimit.set(() => id)
  wideBench.set(() => false)
  requestAnimationFrame(() => {
    const row = document.querySelector<HTMLElement>(`[data-limit="${CSS.escape(id)}"]`)
    row?.scrollIntoView({ block: 'center', behavior: 'instant' })
    row?.querySelector<HTMLElement>('.limit-head')?.focus({ preventScroll: true })
  })
}

/** Shows the last result that could be calculated while the present one cannot, marked as such. */
const useAssessment = (supply: Supply) => {
  const result = assessmentOf(supply)
  const [last, setLast] = useState(result.ok ? result.value : null)
  useEffect(() => {
    if (result.ok) setLast(result.value)
  }, [result])
  return { result, shown: result.ok ? result.value : last }
}

/** An address that names a view of the middle brings it into sight where it lies below the fold, as on a phone. */
const useViewInSight = (view: string | null, ready: boolean) =>
  useEffect(() => {
    if (view === null || !ready) return
    const bench = document.getElementById('bench')
    const top = bench?.getBoundingClientRect().top ?? 0
    if (top > 0.6 * innerHeight || top < -innerHeight) bench?.scrollIntoView({ behavior: 'instant' })
  }, [view, ready])

/** Need, build, drawing and limits of one supply, side by side. */
export const WorkView = ({ supply, route }: { supply: Supply; route: Extract<Route, { at: 'supply' }> }) => {
  const { result, shown } = useAssessment(supply)
  const slow = useDeferredValue(shown)
  const open = useStore(openLimit, (o) => o)
  const wide = useStore(wideBench, (w) => w)
  const pickLimit = useCallback(showLimit, [])
  const undo = useCallback(() => undoSupply(supply.id), [supply.id])
  // The loop takes tens of milliseconds: its limits follow the deferred assessment, and those known last stay till then.
  const limits = useMemo(
    () => (shown && slow ? withLoopOf(shown.limits, slow.evaluation) : []),
    [shown, slow],
  )
  const slowLimits = useMemo(() => (slow ? withLoopOf(slow.limits, slow.evaluation) : []), [slow])
  useViewInSight(route.view, slow !== null)
  return (
    <div className="work" data-wide={wide || undefined}>
      <section className="panel verdict-panel" id="verdict" aria-label={limitStrings.verdict}>
        <h1 className="unseen">{supply.name}</h1>
        {result.ok ? (
          <Verdict limits={limits} pick={pickLimit} />
        ) : (
          <div className="problem" role="alert">
            <h2>{benchStrings.problem.title}</h2>
            <p>{benchStrings.problem.lead}</p>
            <ul>
              {result.problems.map((problem) => (
                <li key={problem.path + problem.message}>{problem.message}</li>
              ))}
            </ul>
          </div>
        )}
      </section>
      <div className="work-left">
        <section className="panel" id="need" tabIndex={-1} aria-labelledby="need-title">
          <h2 className="panel-title" id="need-title">
            {needStrings.title}
          </h2>
          <NeedPanel supply={supply} />
        </section>
        <section className="panel" id="build" tabIndex={-1} aria-labelledby="build-title">
          <h2 className="panel-title" id="build-title">
            {buildStrings.title}
          </h2>
          <BuildPanel supply={supply} design={shown?.evaluation.design ?? null} limits={limits} />
        </section>
      </div>
      <section className="panel" id="bench" tabIndex={-1} aria-label={benchStrings.viewsLabel}>
        {slow && (
          <BenchPanel
            route={route}
            evaluation={slow.evaluation}
            limits={slowLimits}
            pickLimit={pickLimit}
            undo={undo}
          />
        )}
      </section>
      <section className="panel" id="limits" tabIndex={-1} aria-labelledby="limits-title">
        <h2 className="panel-title" id="limits-title">
          {limitStrings.title}
        </h2>
        {slow && <ProvedDepth evaluation={slow.evaluation} />}
        <LimitList limits={limits} open={open} toggle={toggleLimit} />
        <p className="caution">{strings.caution}</p>
      </section>
      <nav className="jump" aria-label={limitStrings.jump}>
        {[
          ['need', needStrings.title],
          ['build', buildStrings.title],
          ['bench', benchStrings.jump],
          ['limits', limitStrings.short],
        ].map(([id, text]) => (
          <button key={id} type="button" onClick={() => document.getElementById(id!)?.scrollIntoView()}>
            {text}
          </button>
        ))}
      </nav>
    </div>
  )
}
