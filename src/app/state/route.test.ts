import { describe, expect, it } from 'vitest'
import { formatRoute, parseRoute, type Route } from './route.ts'

const routes: Route[] = [
  { at: 'shelf' },
  { at: 'drawer' },
  { at: 'compare', left: 'a-1', right: 'b-2' },
  { at: 'supply', id: 'lamp', view: null, focus: null },
  { at: 'supply', id: 'lamp', view: 'heat', focus: 'limit.drain & peak' },
]

describe('route', () => {
  it('comes back from its own address', () => {
    for (const route of routes) expect(parseRoute(formatRoute(route))).toEqual(route)
  })

  it('reads anything else as the shelf or the plain view', () => {
    expect(parseRoute('')).toEqual({ at: 'shelf' })
    expect(parseRoute('#/nowhere/x')).toEqual({ at: 'shelf' })
    expect(parseRoute('#/supply/%E0%A4%A')).toEqual({ at: 'shelf' })
    expect(parseRoute('#/supply/lamp/nothing')).toEqual({ at: 'supply', id: 'lamp', view: null, focus: null })
  })
})
