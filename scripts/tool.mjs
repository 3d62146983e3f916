// Runs the tools of node_modules with this Node, without a shell, on every system.
import { spawn } from 'node:child_process'
import { join } from 'node:path'
import { root } from './ensure-installed.mjs'

const entries = {
  biome: '@biomejs/biome/bin/biome',
  tsc: 'typescript/bin/tsc',
  knip: 'knip/bin/knip.js',
  vitest: 'vitest/vitest.mjs',
}

/** Runs one tool; with `show` its output goes straight through, else it is collected. */
export function runTool(name, args, { show = false, env = {} } = {}) {
  return runNode([join(root, 'node_modules', entries[name]), ...args], { show, env })
}

/** Runs a script under this Node from the root of the package. */
export function runNode(args, { show = false, env = {} } = {}) {
  return new Promise((resolve) => {
    const child = spawn(process.execPath, args, {
      cwd: root,
      stdio: show ? 'inherit' : ['ignore', 'pipe', 'pipe'],
      env: { ...process.env, ...env },
    })
    let output = ''
    child.stdout?.on('data', (chunk) => {
      output += chunk
    })
    child.stderr?.on('data', (chunk) => {
      output += chunk
    })
    child.on('error', (error) => resolve({ ok: false, output: String(error) }))
    child.on('close', (code) => resolve({ ok: code === 0, output }))
  })
}
