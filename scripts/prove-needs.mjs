// `npm run prove:needs`: draws needs, searches the starter drawer for each, simulates what is offered with a general-purpose
// circuit simulator, and writes docs/proofs/needs.md. Takes about an hour on one core; stopped, it goes on where it was.
// --count 200, --seed 1, --effort quick|usual, --fresh (forget what was proved before), --share 0 --of 2 (one of two
// that run at once; the last to end, run again without, writes the page), --out file.
import { appendFileSync, existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { parseArgs } from 'node:util'
import { bundleInto, scratchFolder } from './bundle.mjs'
import { ensureInstalled, root } from './ensure-installed.mjs'

const { values } = parseArgs({
  options: {
    count: { type: 'string', default: '200' },
    seed: { type: 'string', default: '1' },
    effort: { type: 'string', default: 'quick' },
    share: { type: 'string', default: '0' },
    of: { type: 'string', default: '1' },
    fresh: { type: 'boolean', default: false },
    out: { type: 'string', default: join(root, 'docs', 'proofs', 'needs.md') },
  },
})
ensureInstalled()
const count = Number(values.count)
const seed = Number(values.seed)
const kept = join(root, 'node_modules', `.gapwright-needs-${seed}-${values.effort}.jsonl`)
if (values.fresh) rmSync(kept, { force: true })
const before = existsSync(kept)
  ? readFileSync(kept, 'utf8')
      .split('\n')
      .filter((line) => line !== '')
      .map((line) => JSON.parse(line))
  : []
const proved = new Map(before.map((one) => [one.index, one]))

const scratch = scratchFolder('proof')
try {
  const load = async (name) =>
    import(pathToFileURL(await bundleInto(scratch.path, join('test/reference/search/proof', name))).href)
  const { randomNeed } = await load('random-need.ts')
  const { proveNeed } = await load('prove-need.ts')
  const { needsPage, violationsOf } = await load('page.ts')
  for (let index = 0; index < count; index++) {
    if (proved.has(index) || index % Number(values.of) !== Number(values.share)) continue
    const one = await proveNeed(index, randomNeed(seed, index), values.effort)
    proved.set(index, one)
    appendFileSync(kept, `${JSON.stringify(one)}\n`)
    console.log(
      `${index + 1}/${count}: ${one.offered} answers, ${one.supplies.length} simulated, ${violationsOf([one])} violations`,
    )
  }
  if (Number(values.of) === 1) {
    const all = [...proved.values()].filter((p) => p.index < count).sort((a, b) => a.index - b.index)
    mkdirSync(dirname(values.out), { recursive: true })
    writeFileSync(values.out, needsPage(seed, values.effort, all))
    const violations = violationsOf(all)
    console.log(`${all.length} needs, ${violations} violations`)
    process.exitCode = violations === 0 ? 0 : 1
  }
} finally {
  scratch.remove()
}
