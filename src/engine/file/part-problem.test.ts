import { expect, test } from 'vitest'
import { starterDrawer } from '../parts/starter/index.ts'
import { drawerText, readDrawer } from './file.ts'
import { problemSentence } from './problem.ts'

/** What is said of a drawer file in which one value of one part was written over by hand; undefined takes it out. */
function saidOf(kind: string, field: string, value: unknown): string[] {
  const content = JSON.parse(drawerText(starterDrawer))
  const { part } = content.entries.find((entry: { part: { kind: string } }) => entry.part.kind === kind)
  const [first, second] = field.split('.') as [string, string | undefined]
  if (second === undefined) part[first] = value
  else part[first][second] = value
  const read = readDrawer(JSON.stringify(content))
  return read.ok ? [] : read.problems.map(problemSentence)
}

const name = (kind: string) => starterDrawer.entries.find(({ part }) => part.kind === kind)!.part.name

test.each([
  ['switcher', 'drainVoltage_V', undefined, 'is missing', 'V, such as 700'],
  ['switcher', 'drainVoltage_V', -700, '-700 must be more than 0', 'V, such as 700'],
  ['diode', 'reverse_V', '100 V', '"100 V" stands where a number is wanted', 'V, such as '],
  ['core', 'dimensions.A_m', undefined, 'is missing', 'm, such as 0.0'],
  ['capacitor', 'capacitance_F', null, 'null stands where a number is wanted', 'F, such as '],
  ['switcher', 'currentLimit_A.minimum', undefined, 'is missing', 'A, such as 0.'],
  ['former', 'rowDistance_m', 5, '5 is over 0.2', 'm, such as 0.0'],
] as const)('%s %s of %o: part, field, and what is wanted', (kind, field, value, wrong, wanted) => {
  const said = saidOf(kind, field, value)
  expect(said).toHaveLength(1)
  expect(said[0]).toContain(`.part.${field}: ${wrong} in "${name(kind)}"; wanted is a value in ${wanted}`)
})
