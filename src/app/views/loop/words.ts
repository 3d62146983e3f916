import { show } from '../../fields/show.ts'
import { loopStrings as words } from '../../strings/loop.ts'

const minus = (text: string) => text.replace('-', '−')

export const degrees = (value: number): string =>
  words.degrees(minus(value.toFixed(Math.abs(value) < 10 ? 1 : 0)))

export const decibels = (value: number): string =>
  words.decibels(Number.isFinite(value) ? minus(value.toFixed(1)) : '∞')

export const hertz = (value: number): string => show(value, 'Hz', 2)
