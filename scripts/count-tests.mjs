/**
 * Counts a test run from its JSON report. A file that could not be run counts as one failure, so does a skipped
 * test, a run without any test, and a run that ended badly for a reason which no test shows.
 */
export function countTests(report, runOk) {
  if (report === null) return { passed: 0, failed: 1 }
  let passed = 0
  let failed = 0
  for (const file of report.testResults) {
    const states = file.assertionResults.map((test) => test.status)
    passed += states.filter((state) => state === 'passed').length
    const notPassed = states.filter((state) => state !== 'passed').length
    failed += notPassed
    if (file.status !== 'passed' && notPassed === 0) failed++
    if (file.status === 'passed' && states.length === 0) failed++
  }
  if (failed === 0 && (!runOk || passed === 0)) failed = 1
  return { passed, failed }
}
