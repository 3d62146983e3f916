import type { StageCycle } from './stage.ts'

/**
 * Peak current and duty of a cycle with the output raised by a ratio h at the same output current, bulk voltage and clock.
 * Continuous: with Von = Vor (1 - D)/D the mean while it conducts grows by g = (h Vor + Von)/(Vor + Von), its ripple by
 * h/g, and D = h Vor/(h Vor + Von). Else both go with sqrt(h). Losses are taken to grow with the output. From the
 * relations of `stageCycle`.
 */
export function raised(
  { mode, peak_A, valley_A, duty }: Pick<StageCycle, 'mode' | 'peak_A' | 'valley_A' | 'duty'>,
  h: number,
): { readonly peak_A: number; readonly duty: number } {
  if (mode !== 'continuous') return { peak_A: peak_A * Math.sqrt(h), duty: duty * Math.sqrt(h) }
  const grown = h * duty + 1 - duty
  return {
    peak_A: 0.5 * ((peak_A + valley_A) * grown + ((peak_A - valley_A) * h) / grown),
    duty: (h * duty) / grown,
  }
}
