import { roomInWords } from '../engine/limits/index.ts'
import { formatQuantity, type Unit } from '../engine/quantity/index.ts'
import {
  type Comparison,
  type Finding,
  type Proof,
  type ProvedCorner,
  type SolvedCorner,
  spoils,
} from '../engine/stage/index.ts'
import { conditionById } from '../engine/supply/condition.ts'
import { reference } from '../engine/supply/refs.ts'
import { columns } from './columns.ts'
import { against, percent, value } from './limits-text.ts'

/** `+3 %`, `-12 %`, `0 %`. */
const signed = (share: number): string => {
  const whole = Math.round(100 * share)
  return `${whole > 0 ? '+' : ''}${whole} %`
}
const shown = (number: number, unit: string): string =>
  formatQuantity(number, (unit === '' ? '1' : unit) as Unit)

const right = (column: number) => (column === 0 ? 'left' : 'right')

/** A solved figure and how far it stands from the closed form: `496 V +1 %`. */
function besideClosed(corner: SolvedCorner, id: Comparison['id'], unit: string): string {
  const compared = corner.comparisons.find((c) => c.id === id)
  const solved = shown(corner.figures[id], unit)
  return compared === undefined ? solved : `${solved} ${signed(compared.difference).padStart(5)}`
}

/** Every corner in a line: its figures, each with the difference from the closed form. */
export function cornersTable(proved: readonly ProvedCorner[]): string {
  const head = ['corner', 'drain peak', 'primary peak', 'clamp loss', 'ripple', 'reverse peak', 'efficiency']
  const rows = proved.map((corner) =>
    corner.ok
      ? [
          corner.corner.id,
          besideClosed(corner, 'drainPeak_V', 'V'),
          besideClosed(corner, 'primaryPeak_A', 'A'),
          besideClosed(corner, 'clamp_W', 'W'),
          besideClosed(corner, 'outputRipple_Vpp', 'V'),
          besideClosed(corner, 'rectifierReversePeak_V', 'V'),
          shown(corner.figures.efficiency, 'fraction'),
        ]
      : [corner.corner.id, `not solved (${corner.code})`],
  )
  // the words of an unsolved corner may run on under the figures
  const widths = rows.filter((row) => row.length > 2)
  const table = columns([head, ...widths], right).split('\n')
  const [first, ...lines] = table
  const name = Math.max(...[head, ...widths].map((row) => row[0]!.length))
  const solved = lines.values()
  return [
    first,
    ...rows.map((row) => (row.length > 2 ? solved.next().value! : `${row[0]!.padEnd(name)}  ${row[1]}`)),
  ].join('\n')
}

/** One corner in full: every figure of the closed form beside the solved one, and why they differ. */
export function cornerInFull(proved: ProvedCorner): string {
  const { label } = proved.corner
  if (!proved.ok) return `${label}: not solved (${proved.code}). ${proved.message}`
  const rows = proved.comparisons.map((c) => [
    c.label,
    shown(c.closed, c.unit),
    shown(c.solved, c.unit),
    signed(c.difference),
  ])
  const reasons = proved.comparisons.flatMap((c) => (c.why === null ? [] : [`  ${c.label}: ${c.why}`]))
  const cycle =
    proved.repeatsAfter === 0
      ? 'no two pulses are alike; figures are over many'
      : `repeats after ${proved.repeatsAfter === 1 ? 'one pulse' : `${proved.repeatsAfter} pulses`} to ${proved.residual.toExponential(0)}`
  return [
    `${label}: bulk ${shown(proved.bulk_V, 'V')}, output ${shown(proved.figures.output_V, 'V')} at ${shown(proved.figures.output_A, 'A')}; ${cycle}`,
    '',
    columns([['figure', 'closed form', 'solved', 'difference'], ...rows], right),
    ...(reasons.length === 0 ? [] : ['', 'Why they differ by more than 5 %', ...reasons]),
  ].join('\n')
}

/** Limits ranked anew, each beside its reading in the closed form where a corner moved it. */
export function provedTable(limits: Proof['limits']): string {
  const head = ['left', '', 'part', 'limit', 'reading', 'closed form', 'worst at']
  const rows = limits.map(({ limit, depth, closed }) => [
    roomInWords(limit, percent),
    limit.holds ? '' : 'BROKEN',
    reference[limit.spot],
    limit.title,
    against(limit),
    depth === 'closed form' ? 'same' : closed === null ? '' : value(closed, closed.reading),
    limit.condition ?? '',
  ])
  return columns([head, ...rows])
}

/** What the corners show and the closed form cannot. */
export const findingsList = (findings: readonly Finding[]): string =>
  findings.map((finding) => `  ${finding.sentence}`).join('\n')

/** `36 of 36 corners solved. All 49 limits hold (periodic steady state), but 2 loads are not held as they should be.` */
export function proofVerdict({ corners, limits, findings, depth }: Proof): string {
  const solved = corners.filter((corner) => corner.ok).length
  const broken = limits.filter(({ limit }) => !limit.holds).length
  const words =
    broken === 0 ? `All ${limits.length} limits hold` : `${broken} of ${limits.length} limits are broken`
  const spoilt = findings.filter(spoils).length
  const but =
    spoilt === 0
      ? ''
      : `, ${broken === 0 ? 'but' : 'and'} ${spoilt === 1 ? '1 load is' : `${spoilt} loads are`} not held as asked`
  return `${solved} of ${corners.length} corners solved. ${words} (${depth})${but}.`
}

/** What gives first, and what it was before anything was solved. */
export function provedWeakest({ limits }: Proof): string {
  const { limit, closed, depth } = limits[0]!
  const condition = limit.condition === null ? undefined : conditionById.get(limit.condition)
  const place = condition === undefined ? '' : ` (${condition.label})`
  const before =
    depth === 'closed form' || closed === null ? '' : `; ${value(closed, closed.reading)} in the closed form`
  return `Gives first: ${limit.title}, ${reference[limit.spot]}: ${against(limit)}${place}; ${
    limit.holds ? `${roomInWords(limit, percent)}${limit.discrete ? '' : ' left'}` : 'BROKEN'
  }${before}.`
}
