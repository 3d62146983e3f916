// Two steps of the static build: workers become text inside the script, then script and style go inside the page.
import { createHash } from 'node:crypto'

const workerPattern =
  /new Worker\(\s*new URL\(\s*(['"])(\.[^'"]+)\1\s*,\s*import\.meta\.url\s*\)\s*,\s*\{\s*type:\s*['"]module['"]\s*\}\s*\)/g

/** Turns `new Worker(new URL('./x.ts', import.meta.url), { type: 'module' })` into a worker that needs no file. */
export const inlineWorkers = () => ({
  name: 'inline-workers',
  enforce: 'pre',
  transform(code, id) {
    if (!/\.tsx?$/.test(id) || !code.includes('new Worker(')) return null
    const imports = []
    const inlined = code.replace(workerPattern, (_all, _quote, path) => {
      const name = `InlineWorker${imports.length}`
      imports.push(`import ${name} from '${path}?worker&inline'`)
      return `new ${name}()`
    })
    if (imports.length === 0 || inlined.includes('new Worker('))
      this.error(`${id} starts a worker in a way that the static build does not know`)
    return { code: `${imports.join('\n')}\n${inlined}`, map: null }
  },
})

/** The script must not end its own element, nor open a comment there. */
const scriptText = (code) => code.replace(/<\/(script)/gi, '<\\/$1').replace(/<!--/g, '<\\!--')
const hashOf = (text) => `'sha256-${createHash('sha256').update(text).digest('base64')}'`

const dataAddress = (svg) => `data:image/svg+xml;base64,${Buffer.from(svg).toString('base64')}`

/** What the page may do: run its own script and workers, and ask nothing of anybody. */
const policyOf = (scripts, styles) =>
  [
    "default-src 'none'",
    `script-src ${scripts.map(hashOf).join(' ')}`,
    `style-src ${styles.map(hashOf).join(' ')}`,
    "img-src 'self' data: blob:",
    'font-src data:',
    "worker-src 'self' blob:",
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ')

/** Puts the one script, the one style and the icon inside index.html, and says what it may run in a content policy. */
export const onePage = () => ({
  name: 'one-page',
  generateBundle: { order: 'post', handler: putInside },
})

/** Runs last, when the bundler has finished every file. */
function putInside(_options, bundle) {
  const page = bundle['index.html']
  const files = Object.values(bundle).filter((file) => file !== page)
  const scripts = files.filter((file) => file.type === 'chunk')
  const styles = files.filter((file) => file.fileName.endsWith('.css'))
  const icons = files.filter((file) => file.fileName.endsWith('.svg'))
  const others = files.filter((file) => ![...scripts, ...styles, ...icons].includes(file))
  if (scripts.length !== 1 || styles.length !== 1 || others.length > 0)
    this.error(`the static page would need ${files.map((file) => file.fileName).join(', ')} beside it`)
  for (const { fileName, source } of icons)
    page.source = String(page.source).replaceAll(`./${fileName}`, dataAddress(source))
  const code = scriptText(scripts[0].code)
  const style = String(styles[0].source)
  const policy = policyOf([code], [style])
  page.source = String(page.source)
    .replace(/\s*<script type="module"[^>]*><\/script>/, '')
    .replace(/\s*<link rel="stylesheet"[^>]*>/, '')
    .replace(
      /(<meta charset="utf-8" \/>)/,
      (tag) => `${tag}\n    <meta http-equiv="Content-Security-Policy" content="${policy}" />`,
    )
    .replace('</head>', () => `  <style>${style}</style>\n  </head>`)
    .replace('</body>', () => `  <script type="module">${code}</script>\n  </body>`)
  for (const file of files) delete bundle[file.fileName]
}
