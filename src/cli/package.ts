import { existsSync, readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'

/** The folder of this package: the nearest one above this file that has a package.json. */
export function packageRoot(): string {
  let folder = dirname(fileURLToPath(import.meta.url))
  while (!existsSync(join(folder, 'package.json'))) {
    const above = dirname(folder)
    if (above === folder) throw new Error('the package of Gapwright is not whole: no package.json')
    folder = above
  }
  return folder
}

/** The version in package.json. */
export function version(): string {
  const text = readFileSync(join(packageRoot(), 'package.json'), 'utf8')
  return String((JSON.parse(text) as { version: unknown }).version)
}
