// The rooms of src/ and the one direction in which they may import; see docs/architecture.md.

/** Rooms by height: a room imports from lower rows only, and from itself. */
export const rows = [
  ['quantity'],
  ['parts'],
  ['circuit', 'magnetics', 'heat', 'insulation'],
  ['converter', 'mains', 'loop'],
  ['supply'],
  ['limits', 'file'],
  ['stage'],
  ['search', 'bench', 'papers'],
  ['demo'],
  ['engine'],
  ['drawing'],
  ['server'],
  ['app', 'cli'],
]

/** What may be imported besides, and why. */
const exceptions = [
  { from: 'app', to: 'server/api-types.ts', typeOnly: true, why: 'the contract between page and server' },
]

/** Packages that each part of src/ may import; a test file may import any. */
const packages = {
  engine: ['zod'],
  drawing: [],
  app: ['react', 'react-dom', 'zod'],
  server: ['sirv'],
  cli: [],
}

const height = new Map(rows.flatMap((row, index) => row.map((room) => [room, index])))

/** The room of a path under src/: `engine/file/json.ts` is `file`, `engine/index.ts` is `engine`. */
export function roomOf(path) {
  const [first, second] = path.split('/')
  if (first !== 'engine') return first
  return path.split('/').length > 2 ? second : 'engine'
}

const importPattern =
  /(?:^|\n)\s*(?:import|export)\s+(type\s)?(?:[^'";]*?\sfrom\s*)?['"]([^'"]+)['"]|import\(\s*['"]([^'"]+)['"]\s*\)|new URL\(\s*['"]([^'"]+)['"]\s*,\s*import\.meta\.url/g

/** All imports of one source text: where to, and whether they vanish with the types. */
export function importsOf(source) {
  return [...source.matchAll(importPattern)].map((m) => ({
    to: m[2] ?? m[3] ?? m[4],
    typeOnly: m[1] !== undefined,
  }))
}

function resolve(from, to) {
  const parts = from.split('/').slice(0, -1)
  for (const step of to.split('/')) {
    if (step === '..') parts.pop()
    else if (step !== '.') parts.push(step)
  }
  return parts.join('/')
}

function packageProblem(from, to) {
  if (to.startsWith('node:')) {
    const pure = /^(engine|drawing|app)\//.test(from)
    return pure ? `${from} imports ${to}: only server and cli run under Node` : null
  }
  const allowed = packages[from.split('/')[0]] ?? []
  const name = to.startsWith('@') ? to.split('/').slice(0, 2).join('/') : to.split('/')[0]
  return allowed.includes(name)
    ? null
    : `${from} imports the package ${name}, which its part of src/ does not use`
}

function arrowProblem(from, target, typeOnly) {
  const [fromRoom, toRoom] = [roomOf(from), roomOf(target)]
  if (fromRoom === toRoom) return null
  if (!height.has(fromRoom)) return `${from}: the room ${fromRoom} is not in scripts/layers.mjs`
  if (!height.has(toRoom)) return `${from} imports ${target}: the room ${toRoom} is not in scripts/layers.mjs`
  if (exceptions.some((e) => e.from === fromRoom && e.to === target && (typeOnly || !e.typeOnly))) return null
  if (height.get(toRoom) < height.get(fromRoom) && !(fromRoom === 'app' && toRoom === 'server')) return null
  return `${from} imports ${target}: ${fromRoom} may not know ${toRoom}`
}

/** What a pure room may not ask: the time, chance, the machine. */
const impure = /\b(?:Date\.now|new Date\(\)|Math\.random|performance\.now|globalThis|process\.|setTimeout)\b/

/** Everything in a map from path under src/ to source text that breaks the rules of the rooms. */
export function layerProblems(files) {
  const problems = []
  for (const [path, source] of files) {
    const isTest = /\.test\.tsx?$/.test(path)
    for (const { to, typeOnly } of importsOf(source)) {
      if (to.startsWith('.')) {
        const clean = to.split('?')[0]
        const target = resolve(path, clean)
        if (!isTest) problems.push(arrowProblem(path, target, typeOnly))
      } else if (!isTest) problems.push(packageProblem(path, to))
    }
    if (!isTest && /^(engine|drawing)\//.test(path)) {
      const code = source.replace(/\/\*[\s\S]*?\*\/|\/\/.*$/gm, '')
      const found = impure.exec(code)
      if (found)
        problems.push(`${path} uses ${found[0]}: engine and drawing know no clock, chance or machine`)
    }
  }
  return problems.filter((problem) => problem !== null)
}
