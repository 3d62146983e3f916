import { lazy, type ReactNode, Suspense, useEffect, useLayoutEffect } from 'react'
import type { Supply } from '../engine/supply/supply.ts'
import { CommandList } from './commands/command-list.tsx'
import { newSupplySheet } from './commands/commands.ts'
import { Boundary } from './controls/boundary.tsx'
import { setting } from './fields/check.ts'
import { desk, editSupply, openSupply, saveAgain, undoSupply } from './state/desk.ts'
import type { Doc } from './state/documents.ts'
import { type Route, routeStore } from './state/route.ts'
import { useStore } from './state/store.ts'
import { strings } from './strings/common.ts'
import { Conflict } from './views/frame/conflict.tsx'
import { Header } from './views/frame/header.tsx'
import { StatusLine } from './views/frame/status-line.tsx'
import { WorkView } from './views/work/work-view.tsx'

const ShelfView = lazy(() => import('./views/shelf/shelf-view.tsx').then((m) => ({ default: m.ShelfView })))
const NewSupply = lazy(() => import('./views/shelf/new-supply.tsx').then((m) => ({ default: m.NewSupply })))
const DrawerView = lazy(() =>
  import('./views/drawer/drawer-view.tsx').then((m) => ({ default: m.DrawerView })),
)
const CompareView = lazy(() =>
  import('./views/compare/compare-view.tsx').then((m) => ({ default: m.CompareView })),
)
const AnswersPage = lazy(() =>
  import('./views/answers/answers-page.tsx').then((m) => ({ default: m.AnswersPage })),
)

const Missing = ({ message }: { message: string }) => (
  <div className="page">
    <h1>{message}</h1>
    <p>
      <a href="#/">{strings.shelf.back}</a>
    </p>
  </div>
)

const Body = ({ route, supply }: { route: Route; supply: Supply | null }): ReactNode => {
  const unopened = useStore(desk, (d) => (route.at === 'supply' ? d.unopened[route.id] : undefined))
  switch (route.at) {
    case 'supply':
      if (supply !== null) return <WorkView key={supply.id} supply={supply} route={route} />
      return unopened === undefined ? <div className="view-waits" /> : <Missing message={unopened} />
    case 'compare':
      return <CompareView left={route.left} right={route.right} />
    case 'drawer':
      return <DrawerView />
    case 'answers':
      return <AnswersPage />
    case 'shelf':
      return <ShelfView />
  }
}

const pageName = (route: Route): string | null =>
  route.at === 'drawer' ? strings.shelf.drawer : route.at === 'answers' ? strings.shelf.answers : null

const titleOf = (route: Route, supply: Supply | null): string => {
  if (supply !== null) return `${supply.name}, ${strings.product}`
  const name = pageName(route)
  return name === null ? strings.product : `${name}, ${strings.product}`
}

export const App = () => {
  const route = useStore(routeStore, (r) => r)
  const id = route.at === 'supply' ? route.id : null
  const supplyDoc = useStore(desk, (d) => (id === null ? undefined : d.supplies[id]))
  const drawerDoc = useStore(desk, (d) => d.drawer)
  const place = useStore(desk, (d) => d.place)
  const making = useStore(newSupplySheet, (open) => open)
  useEffect(() => {
    if (id !== null) void openSupply(id)
  }, [id])
  // Another page begins at its top; views of one supply stay where they are.
  const page = `${route.at} ${id}`
  // Newer browsers answer with a promise, which an effect must not hand on.
  // biome-ignore lint/correctness/useExhaustiveDependencies: the page is what it follows
  useLayoutEffect(() => {
    scrollTo(0, 0)
  }, [page])
  const supply = supplyDoc?.history.value ?? null
  useEffect(() => {
    document.title = titleOf(route, supply)
  }, [route, supply])

  const doc: Doc<unknown> | null = supplyDoc ?? (route.at === 'drawer' ? drawerDoc : null)
  return (
    <>
      <button
        type="button"
        className="skip"
        onClick={() => document.querySelector<HTMLElement>('#limits, main')?.focus()}
      >
        {strings.skip}
      </button>
      <Header
        route={route}
        doc={doc}
        name={supply?.name ?? pageName(route)}
        rename={
          supply === null
            ? null
            : (name) =>
                editSupply(supply.id, {
                  label: name,
                  key: null,
                  changes: setting(supply, [[['name'], name]]),
                })
        }
        again={() => id !== null && saveAgain(id)}
      />
      {id !== null && supplyDoc?.save.is === 'conflict' && <Conflict id={id} />}
      <main tabIndex={-1}>
        <Boundary resetOn={supply ?? route} undo={id === null ? undefined : () => undoSupply(id)}>
          <Suspense fallback={<div className="view-waits" />}>
            <Body route={route} supply={supply} />
          </Suspense>
        </Boundary>
      </main>
      <StatusLine place={place} prefix={id === null ? '' : `${id}:`} />
      <CommandList />
      {making && (
        <Suspense>
          <NewSupply close={() => newSupplySheet.set(() => false)} />
        </Suspense>
      )}
    </>
  )
}
