import type { FileResult } from '../../src/engine/file/problem.ts'

/** Texts that would run, break out or mislead if a page took them for markup; each fits the shortest text field. */
export const hostileTexts = [
  '<script>ran=1</script>',
  '<img src=x onerror=ran=1>',
  '"><svg onload=ran=1>',
  "' onfocus='ran=1' '",
  '</pre><b>x',
  'javascript:ran=1',
  '\u202egnirts\u0000\u200b',
] as const

type Json = null | boolean | number | string | Json[] | { [key: string]: Json }

/**
 * A file with `text` in every place where the reader lets a text of anybody's choosing stand: each string of the file
 * is tried alone, and kept where the file still opens. `made` counts the places.
 */
export function withEveryText<T>(
  file: T,
  text: string,
  read: (text: string) => FileResult<T>,
): { file: T; made: number } {
  const whole = structuredClone(file) as Json
  let made = 0
  const visit = (holder: Record<string, Json>) => {
    for (const [key, value] of Object.entries(holder)) {
      if (typeof value === 'object' && value !== null) visit(value as Record<string, Json>)
      if (typeof value !== 'string') continue
      holder[key] = text
      if (read(JSON.stringify(whole)).ok) made++
      else holder[key] = value
    }
  }
  visit(whole as Record<string, Json>)
  return { file: whole as T, made }
}
