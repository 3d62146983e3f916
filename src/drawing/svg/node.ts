/** A drawing as data: an SVG element, its attributes and its children. Shells turn it into markup or page elements. */
export interface SvgNode {
  readonly tag: string
  readonly attributes: Readonly<Record<string, string | number>>
  readonly children: readonly (SvgNode | string)[]
}

type Attributes = Record<string, string | number | undefined>

/** Builds one element; attributes that are undefined are left out, numbers are rounded to 0.01. */
export function el(
  tag: string,
  attributes: Attributes = {},
  ...children: (SvgNode | string | null)[]
): SvgNode {
  const kept: Record<string, string | number> = {}
  for (const [name, value] of Object.entries(attributes)) {
    if (value === undefined) continue
    kept[name] = typeof value === 'number' ? Math.round(value * 100) / 100 : value
  }
  return { tag, attributes: kept, children: children.filter((child) => child !== null) }
}

/** Group of elements, with attributes of its own. */
export const group = (attributes: Attributes, ...children: (SvgNode | string | null)[]) =>
  el('g', attributes, ...children)

const escapes: Record<string, string> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
}

/** Text made harmless inside markup, elements and quoted attributes alike. */
const escapeMarkup = (raw: string): string => raw.replace(/[&<>"']/g, (character) => escapes[character]!)

/** Elements that HTML forbids to close. */
const bare = new Set(['meta', 'br', 'hr'])

/** The drawing as markup that reads alike as HTML and as XML, every text and attribute escaped. */
export function toMarkup(node: SvgNode): string {
  let attributes = ''
  for (const [name, value] of Object.entries(node.attributes))
    attributes += ` ${name}="${escapeMarkup(String(value))}"`
  if (bare.has(node.tag)) return `<${node.tag}${attributes}/>`
  const inner = node.children.map((child) =>
    typeof child === 'string' ? escapeMarkup(child) : toMarkup(child),
  )
  return `<${node.tag}${attributes}>${inner.join('')}</${node.tag}>`
}
