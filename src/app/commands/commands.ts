import { desk, redoDrawer, redoSupply, saveNow, undoDrawer, undoSupply } from '../state/desk.ts'
import { type BenchView, go, routeStore } from '../state/route.ts'
import { createStore } from '../state/store.ts'
import { setTheme, themes } from '../state/theme.ts'
import { benchStrings } from '../strings/bench.ts'
import { commandStrings as words } from '../strings/commands.ts'
import { strings } from '../strings/common.ts'

export interface Command {
  readonly id: string
  readonly label: string
  /** As shown: `Ctrl+Z`. */
  readonly keys?: string
  readonly run: () => void
}

export const commandList = createStore(false)
export const newSupplySheet = createStore(false)

const openId = (): string | null => {
  const route = routeStore.get()
  return route.at === 'supply' ? route.id : null
}

export const undoHere = (): void => {
  const id = openId()
  if (id !== null) undoSupply(id)
  else if (routeStore.get().at === 'drawer') undoDrawer()
}

export const redoHere = (): void => {
  const id = openId()
  if (id !== null) redoSupply(id)
  else if (routeStore.get().at === 'drawer') redoDrawer()
}

const showView = (view: BenchView): void => {
  const route = routeStore.get()
  if (route.at === 'supply') go({ ...route, view, focus: null })
}

const moveTo = (selector: string) => () => {
  const target = document.querySelector<HTMLElement>(selector)
  target?.focus()
  target?.scrollIntoView({ block: 'start', behavior: 'instant' })
}

const panels = ['#limits', '#need', '#build', '#bench']

const ofSupply = (id: string, views: readonly BenchView[]): Command[] => [
  ...[words.toLimits, words.toNeed, words.toBuild, words.toBench].map((label, at) => ({
    id: `panel-${at}`,
    label,
    keys: `Alt+${at + 1}`,
    run: moveTo(panels[at]!),
  })),
  ...views.map((view) => ({
    id: `view-${view}`,
    label: words.show(benchStrings.views[view]),
    run: () => showView(view),
  })),
  { id: 'save', label: words.save, keys: 'Ctrl+S', run: () => void saveNow(id) },
  { id: 'print', label: words.print, keys: 'Ctrl+P', run: () => print() },
]

/** Everything that can be done from the keyboard now, in the order in which the list shows it. */
export const commandsNow = (views: readonly BenchView[]): Command[] => {
  const id = openId()
  const others = (desk.get().shelf ?? []).filter((s) => s.id !== id)
  return [
    ...(id === null ? [] : ofSupply(id, views)),
    { id: 'undo', label: strings.edit.undo, keys: 'Ctrl+Z', run: undoHere },
    { id: 'redo', label: strings.edit.redo, keys: 'Ctrl+Shift+Z', run: redoHere },
    { id: 'new', label: strings.shelf.create, run: () => newSupplySheet.set(() => true) },
    { id: 'shelf', label: words.shelf, run: () => go({ at: 'shelf' }) },
    { id: 'drawer', label: words.drawer, run: () => go({ at: 'drawer' }) },
    { id: 'answers', label: words.answers, run: () => go({ at: 'answers' }) },
    ...others.map((s) => ({
      id: `open-${s.id}`,
      label: words.open(s.name),
      run: () => go({ at: 'supply', id: s.id, view: null, focus: null }),
    })),
    ...(id === null
      ? []
      : others.map((s) => ({
          id: `compare-${s.id}`,
          label: words.compare(s.name),
          run: () => go({ at: 'compare', left: id, right: s.id }),
        }))),
    ...themes.map((t) => ({
      id: `theme-${t}`,
      label: words.theme(strings.theme[t]),
      run: () => setTheme(t),
    })),
  ]
}

/** A field keeps its own undo while what it holds is no value yet, or is no value of the supply at all. */
const keepsOwnUndo = (field: Element | null): boolean =>
  field instanceof HTMLTextAreaElement ||
  (field instanceof HTMLInputElement && (field.type === 'search' || field.ariaInvalid === 'true'))

/** Keys that work everywhere on the page. */
export const followKeys = (): void => {
  addEventListener('keydown', (event: KeyboardEvent) => {
    const command = event.ctrlKey || event.metaKey
    const key = event.key.toLowerCase()
    const act = (run: () => void) => {
      event.preventDefault()
      run()
    }
    if (command && key === 'k') act(() => commandList.set((open) => !open))
    else if (command && key === 's') {
      const id = openId()
      act(() => id !== null && void saveNow(id))
    } else if (command && !event.altKey && (key === 'z' || key === 'y')) {
      if (!keepsOwnUndo(document.activeElement)) act(key === 'y' || event.shiftKey ? redoHere : undoHere)
    } else if (event.altKey && !command && /^[1-4]$/.test(event.key)) {
      act(moveTo(panels[Number(event.key) - 1]!))
    } else if (event.key === '?' && !(event.target as Element).closest('input, textarea, select')) {
      act(() => commandList.set(() => true))
    }
  })
}
