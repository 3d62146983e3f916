import { formatQuantity, formatRange } from '../quantity/index.ts'
import type { Evaluation } from '../supply/evaluation.ts'
import { type Step, strong, tick, words } from './document.ts'
import { windingPins } from './pins.ts'

/** What to grind or to put between the halves, in one phrase. */
export function gapWords(evaluation: Evaluation): string {
  const { transformer: t, parts } = evaluation.design
  const length = formatQuantity(t.gap_m, 'm')
  if (t.gap_m === 0) return 'none: the halves meet'
  if (t.gapPlace === 'post') return `${length} ground off the post alone; outer legs meet`
  const films = parts.spacerFilm
    ? `, ${Math.max(1, Math.round(t.gap_m / parts.spacerFilm.thickness_m))} × ${formatQuantity(parts.spacerFilm.thickness_m, 'm')} film`
    : ''
  return `${length} spacer on every leg, post too${films}`
}

/** Fitting the core, after the last winding. */
export function coreFittingStep(evaluation: Evaluation, number: number): Step {
  const { transformer: t } = evaluation.design
  const pins = windingPins(t.coil.layout.sections, 'primary')!
  const { minimum, maximum } = t.plannedInductance_H
  return {
    number,
    cells: [
      tick,
      strong(`${number}  Core`),
      words(
        `Clean the faces. Gap: ${gapWords(evaluation)}. Hold the halves firmly and read the inductance: it decides, not the thickness. Too high: the gap is too small and the core saturates, do not power. Too low: the gap is too wide and power is lost. Then tape or glue the halves and read again.`,
      ),
    ],
    tally: null,
    notes: [],
    checks: [
      {
        what: `L pins ${pins.dotted}–${pins.other}`,
        expect: formatRange(minimum, maximum, 'H'),
        unit: 'H',
      },
    ],
  }
}
