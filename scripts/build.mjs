// Builds the page, the Node bundles and the library's types into dist/, when the sources have changed.
// All messages go to the error stream, so that a command which builds first still prints only its own answer.
import { createHash } from 'node:crypto'
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { ensureInstalled, root } from './ensure-installed.mjs'
import { runTool } from './tool.mjs'

const programConfigs = ['package-lock.json', 'vite.config.ts', 'vite.node.config.ts', 'tsconfig.types.json']
const staticConfigs = ['package-lock.json', 'vite.static.config.ts', 'scripts/one-page.mjs']

/** One hash over everything that a build reads. */
function sourceStamp(configs) {
  const sources = readdirSync(join(root, 'src'), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && !/\.test\.tsx?$/.test(entry.name))
    .map((entry) => join(entry.parentPath, entry.name))
    .sort()
  const hash = createHash('sha256')
  for (const file of [...configs.map((name) => join(root, name)), ...sources])
    hash.update(file.slice(root.length)).update('\0').update(readFileSync(file)).update('\0')
  return hash.digest('hex')
}

/** Whether dist/ was built of these sources already; else the stamp goes, to come back when the build is done. */
function begin(stampName, configs) {
  const file = join(root, 'dist', stampName)
  const stamp = sourceStamp(configs)
  const fresh = existsSync(file) && readFileSync(file, 'utf8') === stamp
  const done = () => {
    mkdirSync(join(root, 'dist'), { recursive: true })
    writeFileSync(file, stamp)
  }
  return { fresh, done, start: () => rmSync(file, { force: true }) }
}

/**
 * Builds the page and the Node bundles when the sources differ from what dist/ was built of; true when it built.
 * With `whole` it builds in any case, and the library's types too. Throws when a step fails.
 */
export async function buildIfChanged({ whole = false } = {}) {
  if (!existsSync(join(root, 'src'))) return false
  const step = begin('.stamp', programConfigs)
  if (!whole && step.fresh) return false
  console.error('Building ...')
  step.start()
  await viteBuild('vite.config.ts', 'production')
  await viteBuild('vite.node.config.ts', 'production')
  const types = whole ? await runTool('tsc', ['-p', 'tsconfig.types.json']) : { ok: true, output: '' }
  if (!types.ok) throw new Error(`the types of the library could not be written:\n${types.output}`)
  step.done()
  return true
}

/** The same page as one file in dist/static, for use from a disk or any web server, without Node. */
export async function buildStaticIfChanged() {
  const step = begin('.static-stamp', staticConfigs)
  if (step.fresh) return
  console.error('Building the page as one file ...')
  step.start()
  await viteBuild('vite.static.config.ts', 'static')
  step.done()
}

async function viteBuild(configFile, mode) {
  const { build } = await import('vite')
  await build({ configFile: join(root, configFile), mode, logLevel: 'warn' })
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
  ensureInstalled()
  try {
    if (process.argv.includes('--static')) await buildStaticIfChanged()
    else await buildIfChanged({ whole: true })
    console.error('Built into dist/.')
  } catch (error) {
    console.error(error instanceof Error ? error.message : error)
    process.exit(1)
  }
}
