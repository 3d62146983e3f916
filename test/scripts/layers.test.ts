import { describe, expect, it } from 'vitest'
import { importsOf, layerProblems, roomOf } from '../../scripts/layers.mjs'

const problems = (path: string, source: string) => layerProblems(new Map([[path, source]]))

describe('layer rules', () => {
  it.each([
    ['engine/converter/stage.ts', "import { gap } from '../magnetics/gap/index.ts'"],
    ['engine/supply/evaluate.ts', "import type { Part } from '../parts/part.ts'"],
    ['engine/index.ts', "export * from './limits/limit.ts'"],
    ['drawing/schematic/page.ts', "import { limits } from '../../engine/limits/limit.ts'"],
    ['app/storage/http.ts', "import type { Shelf } from '../../server/api-types.ts'"],
    ['app/main.tsx', "import { createRoot } from 'react-dom/client'\nimport './styles/base.css'"],
    ['cli/main.ts', "import { startServer } from '../server/server.ts'\nimport { join } from 'node:path'"],
    ['engine/file/file.test.ts', "import { readFileSync } from 'node:fs'"],
    ['engine/heat/a.ts', '/** Math.random is not used here. */\nexport const a = 1 // Date.now'],
  ])('let %s do %s', (path, source) => {
    expect(problems(path, source)).toEqual([])
  })

  it.each([
    ['engine/magnetics/gap.ts', "import { stage } from '../converter/stage.ts'"],
    ['engine/circuit/run.ts', "import { gap } from '../magnetics/gap.ts'"],
    ['engine/limits/limit.ts', "export { x } from '../search/search.ts'"],
    ['engine/parts/part.ts', "import { z } from 'zod'\nimport { Supply } from '../supply/supply.ts'"],
    ['engine/supply/a.ts', "const late = await import('../limits/limit.ts')"],
    ['engine/supply/b.ts', "new Worker(new URL('../../app/worker.ts', import.meta.url))"],
    ['engine/heat/a.ts', "import { readFileSync } from 'node:fs'"],
    ['engine/heat/b.ts', "import { createElement } from 'react'"],
    ['engine/heat/c.ts', 'export const seed = Math.random()'],
    ['engine/heat/d.ts', 'export const at = Date.now()'],
    ['drawing/svg.ts', "import { App } from '../app/app.tsx'"],
    ['app/state.ts', "import { startServer } from '../server/server.ts'"],
    ['app/state.ts', "import { tagOf } from '../server/api-types.ts'"],
    ['server/server.ts', "import { App } from '../app/app.tsx'"],
    ['engine/newroom/a.ts', "import { x } from '../parts/part.ts'"],
  ])('stop %s from doing %s', (path, source) => {
    expect(problems(path, source)).toHaveLength(1)
  })

  it('read imports of every form', () => {
    const source = `import a from 'a'
import type { B } from './b.ts'
import {
  c,
  d,
} from './c.ts'
import './e.css'
export * from './f.ts'
export { g } from './g.ts'
const h = await import('./h.ts')
const text = "from './not-an-import.ts'"
`
    expect(importsOf(source)).toEqual([
      { to: 'a', typeOnly: false },
      { to: './b.ts', typeOnly: true },
      { to: './c.ts', typeOnly: false },
      { to: './e.css', typeOnly: false },
      { to: './f.ts', typeOnly: false },
      { to: './g.ts', typeOnly: false },
      { to: './h.ts', typeOnly: false },
    ])
  })

  it('know the room of a file', () => {
    expect(roomOf('engine/file/json.ts')).toBe('file')
    expect(roomOf('engine/index.ts')).toBe('engine')
    expect(roomOf('cli/main.ts')).toBe('cli')
  })
})
