// Installs the locked dependencies when node_modules does not match package-lock.json.
// Uses only Node's own modules, so that it can run as the first command after a clone.
import { spawnSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { existsSync, readFileSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'

export const root = join(dirname(fileURLToPath(import.meta.url)), '..')

export function ensureInstalled() {
  const [major = 0, minor = 0] = process.versions.node.split('.').map(Number)
  if (major < 20 || (major === 20 && minor < 19)) {
    console.error(`Gapwright needs Node 20.19 or newer; this is Node ${process.versions.node}.`)
    process.exit(1)
  }
  const lock = createHash('sha256')
    .update(readFileSync(join(root, 'package-lock.json')))
    .digest('hex')
  const stamp = join(root, 'node_modules', '.gapwright-lock')
  if (existsSync(stamp) && readFileSync(stamp, 'utf8') === lock) return
  console.log('Installing the packages that Gapwright is built with ...')
  const npm = process.platform === 'win32' ? 'npm.cmd' : 'npm'
  const run = spawnSync(npm, ['ci', '--include=dev', '--no-audit', '--no-fund'], {
    cwd: root,
    stdio: ['ignore', 'inherit', 'inherit'],
    shell: process.platform === 'win32',
  })
  if (run.status !== 0) {
    console.error('npm ci did not succeed; see its message above.')
    process.exit(1)
  }
  writeFileSync(stamp, lock)
}
