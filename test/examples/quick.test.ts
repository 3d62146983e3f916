import { expect, test } from 'vitest'
import { lines } from '../../examples/quick.ts'

test('the example of the README designs a supply that holds', () => {
  expect(lines[0]).toMatch(/^\d+ to \d+ turns, gap \d\.\d\d mm$/)
  expect(lines[1]).toMatch(/^efficiency [78]\d % at 230 V, full load$/)
  expect(lines[2]).toMatch(/^gives first: .+, \d+ % left$/)
})
