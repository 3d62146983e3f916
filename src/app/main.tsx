import './styles/index.css'
import { StrictMode } from 'react'
import { flushSync } from 'react-dom'
import { createRoot } from 'react-dom/client'
import { App } from './app.tsx'
import { followKeys } from './commands/commands.ts'
import { buildSections } from './fields/build-fields.ts'
import { openDesk, saveEverything } from './state/desk.ts'
import { followAddress } from './state/route.ts'
import { startTheme } from './state/theme.ts'
import type { Storage } from './storage/storage.ts'
import { openSections } from './views/work/sections.ts'

/** Lets the browser open the plain files with the network cut, and asks it not to clear what it keeps for them. */
const keepPageOffline = (): void => {
  void navigator.storage?.persist?.()
  if (location.protocol.startsWith('http'))
    void navigator.serviceWorker?.register('offline.js').catch(() => {})
}

/** The page served by the program keeps its files in the bench folder, the plain files keep them in the browser. */
const storageHere = async (): Promise<Storage> => {
  if (import.meta.env.MODE !== 'static') return (await import('./storage/server.ts')).serverStorage()
  const storage = (await import('./storage/browser.ts')).browserStorage()
  const first = await import('./storage/first-start.ts').then((m) => m.layFirstThings(storage))
  if (first !== null && location.hash === '') location.hash = `#/supply/${first}`
  keepPageOffline()
  return storage
}

startTheme()
followAddress()
followKeys()
addEventListener('pagehide', saveEverything)
addEventListener('visibilitychange', () => {
  if (document.visibilityState === 'hidden') saveEverything()
})

/** On paper nothing is folded away. */
addEventListener('beforeprint', () => {
  const unfolded = openSections.get()
  flushSync(() => openSections.set(() => new Set(buildSections.map((s) => s.id))))
  addEventListener('afterprint', () => openSections.set(() => unfolded), { once: true })
})

const storage = await storageHere()
void openDesk(storage)
createRoot(document.getElementById('page')!).render(
  <StrictMode>
    <App />
  </StrictMode>,
)
