// Writes docs/accuracy.md from the reference checks.
import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { bundleInto, scratchFolder } from './bundle.mjs'
import { ensureInstalled, root } from './ensure-installed.mjs'

ensureInstalled()
const scratch = scratchFolder('docs')
try {
  const file = await bundleInto(scratch.path, 'test/reference/accuracy/page.ts')
  const { accuracyPage } = await import(pathToFileURL(file).href)
  writeFileSync(join(root, 'docs', 'accuracy.md'), accuracyPage())
  console.log('Wrote docs/accuracy.md.')
} finally {
  scratch.remove()
}
