import { formatQuantity, formatRange, shownUnit } from '../quantity/index.ts'
import type { Evaluation } from '../supply/evaluation.ts'
import { windingPins } from '../supply/transformer/winding-pins.ts'
import { type Step, strong, tick, words } from './document.ts'

/** What to grind or to put between the halves, in one phrase. */
export function gapWords(evaluation: Evaluation): string {
  const { transformer: t, parts } = evaluation.design
  const length = formatQuantity(t.gap_m, 'm', 2)
  if (t.gap_m === 0) return 'none: the halves meet'
  if (t.gapPlace === 'post') return `${length} in all, off the post`
  const films = parts.spacerFilm
    ? `: ${Math.max(1, Math.round(t.gap_m / parts.spacerFilm.thickness_m))} × ${formatQuantity(parts.spacerFilm.thickness_m, 'm')} film`
    : ''
  return `${length} under every leg${films}`
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
      words('Clean the faces, fit the gap, hold firmly, read: inductance decides, not thickness.'),
    ],
    tally: null,
    notes: [
      'Too high: gap too small, the core saturates, do not power. Too low: gap too wide. Tape or glue, read again.',
    ],
    checks: [
      {
        what: `L pins ${pins.dotted}–${pins.other}`,
        expect: formatRange(minimum, maximum, 'H'),
        unit: shownUnit(minimum, 'H'),
      },
    ],
  }
}
