import { desk } from '../../state/desk.ts'
import { ask, warmUp, workerCount } from './answer-pool.ts'
import { plainQuestion } from './messages.ts'
import { needTyped, typedNeed } from './need-form.tsx'

/**
 * While the page rests: loads the workers of the search and lets each run for a moment on what the form asks so far, so
 * that the first answers of a real question need not wait for programs to be read and compiled.
 */
export const loadAhead = (): void => {
  warmUp()
  const need = needTyped(typedNeed.get())
  const drawer = desk.get().drawer?.history.value
  if (!('source' in need) || !drawer) return
  const nothing = () => {}
  for (let i = 0; i < workerCount(); i++)
    ask<'warm'>({ kind: 'warm', question: plainQuestion(need, drawer) }, { done: nothing, failed: nothing })
}
