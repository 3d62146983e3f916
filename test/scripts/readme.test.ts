import { existsSync, readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { describe, expect, it } from 'vitest'

const root = fileURLToPath(new URL('../..', import.meta.url))
const read = (path: string) => readFileSync(join(root, path), 'utf8')

describe('what is written down', () => {
  it('README shows the example as it is', () => {
    expect(read('README.md')).toContain(`\`\`\`ts\n${read('examples/quick.ts')}\`\`\``)
  })

  it.each([
    'README.md',
    'CONTRIBUTING.md',
    'docs/architecture.md',
    'docs/files.md',
    'docs/words.md',
    'docs/command-line.md',
    'docs/library.md',
    'docs/tour.md',
    'docs/accuracy.md',
    'docs/papers.md',
    'docs/safety.md',
  ])('%s links only to what is there', (page) => {
    const links = [...read(page).matchAll(/\]\(([^)\s]+)\)/g)].map((m) => m[1]!.split('#')[0]!)
    const missing = links
      .filter((link) => link !== '' && !/^https?:/.test(link))
      .filter((link) => !existsSync(join(root, dirname(page), link)))
    expect(missing).toEqual([])
  })

  it('the rooms in docs/architecture.md are the rooms of the layer rules', async () => {
    const { rows } = await import('../../scripts/layers.mjs')
    const text = read('docs/architecture.md')
    for (const room of rows.flat().filter((name: string) => name !== 'engine' && name !== 'demo'))
      expect(text).toMatch(new RegExp(`\\| \`(engine/)?${room}\` `))
  })
})
