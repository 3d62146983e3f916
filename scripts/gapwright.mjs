#!/usr/bin/env node
// The command line. In a clone it first brings dist/ up to date with the sources.
import { existsSync } from 'node:fs'
import { join } from 'node:path'
import { ensureInstalled, root } from './ensure-installed.mjs'

if (existsSync(join(root, 'package-lock.json'))) {
  ensureInstalled()
  const { buildIfChanged } = await import('./build.mjs')
  try {
    await buildIfChanged()
  } catch (error) {
    console.error(error instanceof Error ? error.message : error)
    process.exit(2)
  }
}
const { runCommand } = await import('../dist/node/cli.js')
process.exitCode = await runCommand(process.argv.slice(2))
