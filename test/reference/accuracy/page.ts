import type { Comparison, Topic } from './comparison.ts'
import { electricsTopics } from './electrics.ts'
import { magneticsTopics } from './magnetics.ts'

const signed = (value: number, digits: number): string => {
  const text = value.toFixed(digits)
  if (Number(text) === 0) return (0).toFixed(digits)
  return value > 0 ? `+${text}` : text.replace('-', '−')
}

const errorText = ({ error, unit }: Comparison): string => {
  if (unit === 'ratio') return `${signed(error * 100, 2)} %`
  return unit === 'dB' ? `${signed(error, 3)} dB` : `${signed(error, 2)}°`
}

const worstOf = (rows: readonly Comparison[], unit: Comparison['unit']): Comparison | null =>
  rows.filter((r) => r.unit === unit).sort((a, b) => Math.abs(b.error) - Math.abs(a.error))[0] ?? null

const worstText = ({ rows }: Topic): string =>
  (['ratio', 'dB', 'degrees'] as const)
    .map((unit) => worstOf(rows, unit))
    .filter((row) => row !== null)
    .map((row) => `${errorText(row)} (${row.what})`)
    .join(', ')

const link = ({ folder }: Topic): string => `[${folder}](../test/reference/${folder}/README.md)`

const table = (head: readonly string[], rows: readonly (readonly string[])[]): string =>
  [head, head.map(() => '---'), ...rows].map((cells) => `| ${cells.join(' | ')} |`).join('\n')

/** docs/accuracy.md from what the models say now. */
export const accuracyPage = (): string => {
  const topics = [...magneticsTopics(), ...electricsTopics()]
  return `# How close the models are

Each figure here is computed by \`npm run docs\` from the models as they are, and set beside one that comes from outside
of this project. The references, with their sources and uncertainties, are in [test/reference](../test/reference); the
tests there hold every model to a limit and say why it is that one. What follows is how far off it really is.

A reference of ideal parts says how well a model solves its own equations, and nothing about a real core or a hand-made
winding: their bands are what the corners of a supply lean on. The bench has the last word.

${table(
  ['model', 'against', 'reference', 'figures', 'farthest off'],
  topics.map((t) => [t.title, t.against, link(t), String(t.rows.length), worstText(t)]),
)}

What is checked besides, without a table here: core loss and saturation against printed points, wire against its
standards, powder rings, heat of a wound core, distances against standards, worked flyback designs from handbooks, the
loop of the switched circuit against its curves, whole supplies against a simulator, faults against the readings by
which the trade tells them. Each has its folder in [test/reference](../test/reference).

${topics.map(section).join('\n\n')}
`
}

const section = (topic: Topic): string =>
  `## ${topic.title}

Against ${topic.against}; reference: ${link(topic)}.

${table(
  ['case', 'reference', 'off by'],
  topic.rows.map((row) => [row.what, row.reference, errorText(row)]),
)}`
