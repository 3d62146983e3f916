import { expect, it } from 'vitest'
import { countTests } from '../../scripts/count-tests.mjs'

const file = (status: string, ...states: string[]) => ({
  status,
  assertionResults: states.map((state) => ({ status: state })),
})
const report = (...testResults: ReturnType<typeof file>[]) => ({ testResults })

it.each([
  ['all pass', report(file('passed', 'passed', 'passed')), true, { passed: 2, failed: 0 }],
  ['one fails', report(file('failed', 'passed', 'failed')), false, { passed: 1, failed: 1 }],
  [
    'a file that cannot be loaded fails',
    report(file('failed'), file('passed', 'passed')),
    false,
    { passed: 1, failed: 1 },
  ],
  ['a skipped test fails', report(file('passed', 'passed', 'skipped')), true, { passed: 1, failed: 1 }],
  ['a todo fails', report(file('passed', 'passed', 'todo')), true, { passed: 1, failed: 1 }],
  [
    'a file without tests fails',
    report(file('passed'), file('passed', 'passed')),
    true,
    { passed: 1, failed: 1 },
  ],
  ['nothing run fails', report(), true, { passed: 0, failed: 1 }],
  ['no report fails', null, true, { passed: 0, failed: 1 }],
  ['an error outside of tests fails', report(file('passed', 'passed')), false, { passed: 1, failed: 1 }],
])('%s', (_name, given, runOk, counts) => {
  expect(countTests(given, runOk)).toEqual(counts)
})
