import { describe, expect, it } from 'vitest'
import { sampleSupply } from '../../../test/support/sample.ts'
import { supplyText } from './file.ts'
import { openSupply } from './open.ts'
import { recordFileId } from './record.ts'

const bytes = (text: string) => new TextEncoder().encode(text)
const escaped = (text: string) => text.replaceAll('&', '&amp;').replaceAll('<', '&lt;')
const recordOf = (text: string) =>
  `\ufeff\n <!doctype html><title>R</title><pre id="${recordFileId}">${escaped(text)}</pre>`

describe('what a person opens', () => {
  const supply = sampleSupply()

  it('is a project file, or a build record with the same supply inside', () => {
    const expected = { ok: true, value: supply, migratedFrom: null }
    expect(openSupply(bytes(supplyText(supply)))).toEqual(expected)
    expect(openSupply(bytes(recordOf(supplyText(supply))))).toEqual(expected)
  })

  it.each([
    ['<p>hello', 'this page holds no Gapwright file: it is not a build record'],
    ['', 'the file is empty'],
    ['hello', 'line 1, column 1: a value was expected where "h" stands'],
    [recordOf('{}'), 'is missing; this is no gapwright-supply file'],
  ])('is refused with a sentence when it is %j', (text, message) => {
    const opened = openSupply(bytes(text))
    expect(opened.ok ? [] : opened.problems.map((p) => p.message)).toEqual([message])
  })
})
