import type { Spot } from '../../../engine/supply/refs.ts'
import { sectionOfSpot } from '../../fields/build-fields.ts'
import { openSections, wideBench } from './sections.ts'

/** Where a spot without a field of its own can be changed. */
const standIn: Partial<Record<Spot, Spot>> = { controlCapacitor: 'switcher' }

/** Opens the section in which a part can be changed, goes to its field and lets it flash once. */
export const focusSpot = (spot: Spot): void => {
  wideBench.set(() => false)
  const target = standIn[spot] ?? spot
  const section = sectionOfSpot(target)
  if (section !== null) openSections.set((open) => new Set([...open, section]))
  requestAnimationFrame(() => {
    const field = document.querySelector<HTMLElement>(`[data-spot~="${CSS.escape(target)}"]`)
    if (field === null) return
    field.scrollIntoView({ block: 'center', behavior: 'instant' })
    field.querySelector<HTMLElement>('input, select, button.part, button')?.focus({ preventScroll: true })
    field.classList.remove('found')
    void field.offsetWidth
    field.classList.add('found')
  })
}
