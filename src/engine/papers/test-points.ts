/**
 * Points to probe at the first power-up, by the names on the printed schematic. Primary points are referred to TP1,
 * secondary points to TP5. `at`: what the plan calls them.
 */
export const testPoints = [
  {
    name: 'TP1',
    node: 'primaryCommon',
    what: 'bulk −: LIVE reference of TP2 to TP4',
    at: ['C2 minus', 'C5 minus, primary return', 'primary return'],
  },
  { name: 'TP2', node: 'bulk', what: 'bulk +, stays charged after unplugging', at: ['C2 plus'] },
  { name: 'TP3', node: 'drain', what: 'drain: isolated high-voltage probe alone', at: ['U1 drain'] },
  { name: 'TP4', node: 'bias', what: 'bias supply', at: ['C5 plus'] },
  { name: 'TP5', node: 'outputCommon', what: 'output −: reference of TP6', at: ['output minus'] },
  { name: 'TP6', node: 'output', what: 'output +', at: ['output plus'] },
] as const

/** A place to probe with the name that the printed schematic gives it: `TP2, C2 plus`. */
export function withTestPoint(place: string): string {
  const point = testPoints.find(({ at }) => (at as readonly string[]).includes(place))
  return point ? `${point.name}, ${place}` : place
}
