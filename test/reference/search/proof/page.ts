import { type Check, type ProvedNeed, type ProvedSupply, provedCorners } from './prove-need.ts'

const asked: Record<Check['what'], string> = {
  drain: 'drain voltage below its rating',
  output: 'output within 1 % on average and, as ripple is measured, 5 % at any instant',
  trip: 'peak current below the least current limit at the lowest valley',
  corner: 'corner solved, so that it could be simulated, or held with uneven pulses',
  limits: 'every limit held when its file was opened again',
}

const percent = (room: number): string => `${(100 * room).toFixed(1).replace('-', '−')} %`

const sum = (list: readonly number[]): number => list.reduce((a, b) => a + b, 0)

/** Every check of every supply with what it belongs to. */
const allChecks = (proved: readonly ProvedNeed[]) =>
  proved.flatMap((p) => p.supplies.flatMap((s) => s.checks.map((check) => ({ p, s, check }))))

const needText = ({ need }: ProvedNeed): string => {
  const { source: s } = need
  const input = s.kind === 'mains' ? `${s.minimum_Vrms} to ${s.maximum_Vrms} V` : 'dc'
  return `${need.output_V} V ${need.output_A} A from ${input}`
}

const supplyText = (s: ProvedSupply): string => `${s.core}, ${s.switcher} (${s.chosenFor})`

const table = (head: readonly string[], rows: readonly (readonly string[])[]): string =>
  [head, head.map(() => '---'), ...rows].map((cells) => `| ${cells.join(' | ')} |`).join('\n')

/** How many violations there are. */
export const violationsOf = (proved: readonly ProvedNeed[]): number =>
  allChecks(proved).filter(({ check }) => check.room < 0).length

/** docs/proofs/needs.md from what the simulator said. */
export function needsPage(seed: number, effort: string, proved: readonly ProvedNeed[]): string {
  const checks = allChecks(proved)
  const broken = checks.filter(({ check }) => check.room < 0)
  const supplies = sum(proved.map((p) => p.supplies.length))
  const skipped = sum(proved.flatMap((p) => p.supplies.map((s) => s.skipping.length)))
  const answered = proved.filter((p) => p.supplies.length > 0)
  const kinds = (Object.keys(asked) as Check['what'][]).filter(
    (what) =>
      what === 'drain' || what === 'output' || what === 'trip' || checks.some((c) => c.check.what === what),
  )
  const row = (what: Check['what']): string[] => {
    const of = checks.filter(({ check }) => check.what === what)
    const worst = of.reduce<(typeof of)[number] | null>(
      (a, b) => (a === null || b.check.room < a.check.room ? b : a),
      null,
    )
    return [
      asked[what],
      `${of.length}`,
      `${of.filter(({ check }) => check.room < 0).length}`,
      worst ? `${percent(worst.check.room)} (need ${worst.p.index + 1}, ${worst.check.corner})` : '',
    ]
  }
  return `# What the search offers, simulated

\`npm run prove:needs\` draws ${proved.length} needs (seed ${seed}): 5 to 150 W at 5 to 48 V, from one of five mains, in all sorts of
surroundings. Each is put to the starter drawer (${effort} search). Of every front those that are shown are chosen as the page does,
each proved on the project's own solved circuit; of these the supply of the narrowest margin, the one of the least loss and
the smallest are written as files, opened again, assessed, and their stages exported as decks for
eecircuit-engine (ngspice in WebAssembly), which shares no code with this project's solvers. ${cornersText}

${answered.length} of the needs have answers that were shown. ${sum(proved.map((p) => p.offered))} supplies were on their fronts in closed form, of which the solved
circuit refused ${sum(proved.map((p) => p.refused))} when they were to be shown; ${supplies} were simulated, with
**${broken.length} ${broken.length === 1 ? 'violation' : 'violations'}**.

${table(['asked of the simulator', 'checks', 'violations', 'least room'], kinds.map(row))}

${skipped} corners at a tenth of the load have no train of even pulses to simulate: the chip leaves pulses out, or each starts where the
ring of the one before stands. There the project's own circuit, run under its own feedback, holds the output within its ripple and the
chip within its supply.

${
  broken.length === 0
    ? ''
    : `## Violations\n\n${table(
        ['need', 'supply', 'corner', 'asked', 'reading', 'allowed'],
        broken.map(({ p, s, check }) => [
          `${p.index + 1}: ${needText(p)}`,
          supplyText(s),
          check.corner,
          check.note ?? check.what,
          check.reading.toPrecision(4),
          check.allowed.toPrecision(4),
        ]),
      )}\n\n`
}## The needs

${table(
  ['need', 'asked', 'answers', 'least room of drain', 'output', 'peak current'],
  proved.map((p) => {
    const least = (what: Check['what']): string => {
      const rooms = p.supplies.flatMap((s) => s.checks.filter((c) => c.what === what).map((c) => c.room))
      return rooms.length === 0 ? '' : percent(Math.min(...rooms))
    }
    return [`${p.index + 1}`, needText(p), `${p.offered}`, least('drain'), least('output'), least('trip')]
  }),
)}
`
}

const cornersText = `Corners: ${provedCorners.map((id) => `\`${id}\``).join(', ')}.
A deck starts in the cycle that the project solved and runs twelve more: were that cycle wrong, the simulator would drift
away from it. Room of the output is counted in its band, that of drain and current in the rating.`
