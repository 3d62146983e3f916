import { readFileSync } from 'node:fs'
import { expect, it } from 'vitest'
import { accuracyPage } from '../reference/accuracy/page.ts'

it('docs/accuracy.md says what the models say now; `npm run docs` writes it', () => {
  const written = readFileSync(new URL('../../docs/accuracy.md', import.meta.url), 'utf8')
  expect(written).toBe(accuracyPage())
})
