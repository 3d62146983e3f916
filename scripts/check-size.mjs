// The script that the page needs before it can show anything, compressed, against its limit.
import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { gzipSync } from 'node:zlib'
import { root } from './ensure-installed.mjs'

export const initialScriptLimit_B = 300_000

/** The entry and everything that it imports without waiting: `{ ok, output }`. */
export function checkSize() {
  const page = join(root, 'dist', 'page')
  const manifestFile = join(page, '.vite', 'manifest.json')
  if (!existsSync(manifestFile)) return { ok: false, output: 'dist/page is not built' }
  const manifest = JSON.parse(readFileSync(manifestFile, 'utf8'))
  const files = new Set()
  const visit = (key) => {
    const chunk = manifest[key]
    if (files.has(chunk.file)) return
    files.add(chunk.file)
    for (const imported of chunk.imports ?? []) visit(imported)
  }
  for (const key of Object.keys(manifest)) if (manifest[key].isEntry) visit(key)
  const scripts = [...files].filter((file) => file.endsWith('.js'))
  const size_B = scripts.reduce((sum, file) => sum + gzipSync(readFileSync(join(page, file))).length, 0)
  return {
    ok: scripts.length > 0 && size_B < initialScriptLimit_B,
    output: `initial script ${(size_B / 1000).toFixed(1)} kB compressed, limit ${initialScriptLimit_B / 1000} kB`,
  }
}
