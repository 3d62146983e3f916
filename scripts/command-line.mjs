// Writes docs/command-line.md from the help texts of the commands.
import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { ensureInstalled, root } from './ensure-installed.mjs'

ensureInstalled()
const { buildIfChanged } = await import('./build.mjs')
await buildIfChanged()
const { commands } = await import('../dist/node/cli.js')

const page = `# Command line

\`\`\`
npx gapwright <command> [flags]
\`\`\`

Each command prints this text with \`--help\`. Exit codes: 0 done, and all limits hold; 1 some limit is broken; 2 the
input cannot be used. Values are read as people write them: \`4.7 mH\`, \`4m7\`, \`0,6 mm\`, \`85-265 V\`, \`230 V ±10 %\`.

${commands.map(({ name, help }) => `## ${name}\n\n\`\`\`\n${help}\`\`\``).join('\n\n')}
`
writeFileSync(join(root, 'docs', 'command-line.md'), page)
console.log('Wrote docs/command-line.md.')
