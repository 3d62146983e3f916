import { createElement, type KeyboardEvent, type MouseEvent, memo, type ReactNode } from 'react'
import { drawingStyle } from '../../drawing/style.ts'
import type { SvgNode } from '../../drawing/svg/node.ts'
import { adoptStyle } from './style.ts'

const names: Record<string, string> = { class: 'className', tabindex: 'tabIndex' }

const propertyName = (attribute: string): string => {
  if (attribute.startsWith('aria-') || attribute.startsWith('data-')) return attribute
  return names[attribute] ?? attribute.replace(/-([a-z])/g, (_, letter: string) => letter.toUpperCase())
}

const element = (node: SvgNode | string, key: number): ReactNode => {
  if (typeof node === 'string') return node
  const properties: Record<string, unknown> = { key }
  for (const [name, value] of Object.entries(node.attributes)) properties[propertyName(name)] = value
  return createElement(node.tag, properties, ...node.children.map(element))
}

/**
 * A drawing given as data. Parts in it that carry a spot answer to pointer, Enter and Space through `pick`.
 */
export const Drawing = memo(({ node, pick }: { node: SvgNode; pick?: (spot: string) => void }) => {
  adoptStyle(drawingStyle)
  const spotOf = (event: MouseEvent | KeyboardEvent) =>
    (event.target as Element).closest<SVGElement>('[data-spot]')?.dataset.spot
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: the parts inside are buttons of their own
    <div
      className="drawing"
      onClick={(event) => {
        const spot = spotOf(event)
        if (spot && pick) pick(spot)
      }}
      onKeyDown={(event) => {
        if (event.key !== 'Enter' && event.key !== ' ') return
        const spot = spotOf(event)
        if (!spot || !pick) return
        event.preventDefault()
        pick(spot)
      }}
    >
      {element(node, 0)}
    </div>
  )
})
