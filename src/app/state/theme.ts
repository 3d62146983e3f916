import { createStore } from './store.ts'

export const themes = ['auto', 'light', 'dark'] as const
export type Theme = (typeof themes)[number]

const key = 'gapwright-theme'

const read = (): Theme => {
  try {
    const kept = localStorage.getItem(key)
    return themes.find((t) => t === kept) ?? 'auto'
  } catch {
    return 'auto'
  }
}

const show = (theme: Theme) => {
  if (theme === 'auto') delete document.documentElement.dataset.theme
  else document.documentElement.dataset.theme = theme
}

export const theme = createStore<Theme>('auto')

export const startTheme = (): void => {
  theme.set(read)
  show(theme.get())
}

export const setTheme = (next: Theme): void => {
  theme.set(() => next)
  show(next)
  try {
    localStorage.setItem(key, next)
  } catch {
    // A browser that keeps nothing still shows the theme until it is closed.
  }
}
