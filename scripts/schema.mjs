// Writes docs/schema/*.json from the schemas that the reader itself uses.
import { mkdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { ensureInstalled, root } from './ensure-installed.mjs'

ensureInstalled()
const { buildIfChanged } = await import('./build.mjs')
await buildIfChanged()
const { fileSchemas } = await import('../dist/node/engine.js')
const folder = join(root, 'docs', 'schema')
mkdirSync(folder, { recursive: true })
for (const [name, schema] of Object.entries(fileSchemas()))
  writeFileSync(join(folder, `${name}.schema.json`), `${JSON.stringify(schema, null, 2)}\n`)
console.log('Wrote docs/schema/.')
