import { readdirSync, readFileSync } from 'node:fs'
import { expect, test } from 'vitest'

const here = (path: string) => new URL(`../../${path}`, import.meta.url)
const library = readFileSync(here('docs/library.md'), 'utf8')
const examples = import.meta.glob<{ lines: string[] }>('../../examples/*.ts')

test.each(readdirSync(here('examples')).map((name) => [name]))(
  'examples/%s says what docs/library.md says',
  async (name) => {
    const source = readFileSync(here(`examples/${name}`), 'utf8')
    const { lines } = await examples[`../../examples/${name}`]!()
    expect(lines.length).toBeGreaterThan(0)
    if (name !== 'quick.ts') expect(library).toContain(`\`\`\`ts\n${source}\`\`\``)
    if (name !== 'quick.ts') expect(library).toContain(`\`\`\`\n${lines.join('\n')}\n\`\`\``)
  },
)
