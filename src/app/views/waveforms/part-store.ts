import { createStore } from '../../state/store.ts'

export const waveParts = ['cycle', 'proof', 'runs'] as const
export type WavePart = (typeof waveParts)[number]

/** Which of the three parts is open; the limits panel opens the proof. */
export const wavePart = createStore<WavePart>('cycle')
