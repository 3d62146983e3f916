// Reads every source under src/ and checks that imports run the way that scripts/layers.mjs says.
import { readdirSync, readFileSync } from 'node:fs'
import { join, sep } from 'node:path'
import { root } from './ensure-installed.mjs'
import { layerProblems } from './layers.mjs'

const source = join(root, 'src')
const largest_lines = 500

/** `{ ok, output }` for the whole of src/. */
export function checkLayers() {
  const files = new Map(
    readdirSync(source, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile() && /\.tsx?$/.test(entry.name))
      .map((entry) => join(entry.parentPath, entry.name))
      .map((file) => [
        file
          .slice(source.length + 1)
          .split(sep)
          .join('/'),
        readFileSync(file, 'utf8'),
      ]),
  )
  const problems = [...layerProblems(files), ...longFiles(files)]
  return {
    ok: files.size > 0 && problems.length === 0,
    output: problems.length > 0 ? problems.join('\n') : `${files.size} files`,
  }
}

/** Sources over 500 lines; tables of data may be longer. */
function longFiles(files) {
  return [...files]
    .filter(([path, text]) => !path.includes('/starter/') && text.split('\n').length > largest_lines)
    .map(([path]) => `${path} has over ${largest_lines} lines; split it`)
}
