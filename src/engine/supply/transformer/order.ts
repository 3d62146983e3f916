import type { StackItem } from '../build.ts'

type Winding = Extract<StackItem, { kind: 'winding' }>

/** Tape that a stack has where neighbours do not ask for another amount. */
export interface TapeRule {
  /** Between primary side and secondary side. */
  readonly tapeBarrier: number
  /** Over the last winding. */
  readonly tapeOuter: number
}

const isSecondary = (item: StackItem): boolean => item.kind === 'winding' && item.winding === 'secondary'

/** Layers of tape usual between two neighbours: a barrier between the sides of the mains, else one. */
const usual = (below: StackItem, above: StackItem | null, rule: TapeRule): number =>
  above === null ? rule.tapeOuter : isSecondary(below) !== isSecondary(above) ? rule.tapeBarrier : 1

interface Wrapped {
  readonly item: StackItem
  /** Layers of tape over it. */
  readonly over: number
}

/** Windings and shields with the tape that lies over each, and the tape under the first. */
const wrap = (stack: readonly StackItem[]): { under: number; items: Wrapped[] } => {
  let under = 0
  const items: { item: StackItem; over: number }[] = []
  for (const item of stack)
    if (item.kind !== 'tape') items.push({ item, over: 0 })
    else if (items.length === 0) under += item.layers
    else items[items.length - 1]!.over += item.layers
  return { under, items }
}

const unwrap = (under: number, items: readonly Wrapped[]): StackItem[] => [
  ...(under > 0 ? [{ kind: 'tape', layers: under } as const] : []),
  ...items.flatMap(({ item, over }): StackItem[] =>
    over > 0 ? [item, { kind: 'tape', layers: over }] : [item],
  ),
]

/** How many windings and shields a stack has: the places among which things can be moved. */
export const placesOf = (stack: readonly StackItem[]): number => wrap(stack).items.length

/** The winding or shield at each place, and the tape over it. */
export const placedItems = (stack: readonly StackItem[]): readonly Wrapped[] => wrap(stack).items

/**
 * Moves the winding or shield at place `from` to place `to` (counted from the former outward, tape not counted). Tape
 * stays between places; where it had the usual amount for its neighbours it takes the usual amount for the new ones, and
 * a barrier is never thinner than the rule after a move. The same stack when either place does not exist.
 */
export function moveItem(
  stack: readonly StackItem[],
  from: number,
  to: number,
  rule: TapeRule,
): readonly StackItem[] {
  const { under, items } = wrap(stack)
  if (from === to || items[from] === undefined || items[to] === undefined) return stack
  const order = items.map(({ item }) => item)
  const [moved] = order.splice(from, 1)
  order.splice(to, 0, moved!)
  const next = order.map((item, place): Wrapped => {
    const was = items[place]!
    const wasUsual = usual(was.item, items[place + 1]?.item ?? null, rule)
    const isUsual = usual(item, order[place + 1] ?? null, rule)
    const above = order[place + 1]
    const barrier = above !== undefined && isSecondary(item) !== isSecondary(above)
    return { item, over: was.over === wasUsual ? isUsual : barrier ? Math.max(was.over, isUsual) : was.over }
  })
  return rejoin(unwrap(under, next))
}

/** Sets the tape over the winding at a place. */
export function setTape(stack: readonly StackItem[], place: number, layers: number): readonly StackItem[] {
  const { under, items } = wrap(stack)
  return unwrap(
    under,
    items.map((wrapped, index) => (index === place ? { ...wrapped, over: Math.max(0, layers) } : wrapped)),
  )
}

/** Places of the parts that lie next before and after a part of the same winding; undefined at its ends. */
export function partsBeside(
  stack: readonly StackItem[],
  place: number,
): { readonly before: number | undefined; readonly after: number | undefined } {
  const { items } = wrap(stack)
  const here = items[place]?.item
  const places = items.flatMap(({ item }, index) =>
    here?.kind === 'winding' && item.kind === 'winding' && item.winding === here.winding ? [index] : [],
  )
  const at = places.indexOf(place)
  return { before: at < 0 ? undefined : places[at - 1], after: at < 0 ? undefined : places[at + 1] }
}

/**
 * Changes direction or pins of the winding at a place. A joint that goes off the pins, or back to one, does so at both
 * of the ends that it joins.
 */
export function changeWinding(
  stack: readonly StackItem[],
  place: number,
  change: Partial<Pick<Winding, 'direction' | 'startPin' | 'finishPin'>>,
): readonly StackItem[] {
  const { under, items } = wrap(stack)
  const { before, after } = partsBeside(stack, place)
  const { startPin, finishPin } = change
  return unwrap(
    under,
    items.map((wrapped, index): Wrapped => {
      const { item, over } = wrapped
      if (item.kind !== 'winding') return wrapped
      if (index === place) return { item: { ...item, ...change }, over }
      if (index === after && finishPin !== undefined && (finishPin === null || item.startPin === null))
        return { item: { ...item, startPin: finishPin }, over }
      if (index === before && startPin !== undefined && (startPin === null || item.finishPin === null))
        return { item: { ...item, finishPin: startPin }, over }
      return wrapped
    }),
  )
}

/**
 * Splits the winding at a place into two halves that lie on each other with one layer of tape between, joined at a pin
 * that nothing else uses, or off the pins where no pin of its row is free. Null where it has one turn.
 */
export function splitWinding(
  stack: readonly StackItem[],
  place: number,
  rows: { readonly rowOne: number; readonly rowTwo: number },
): readonly StackItem[] | null {
  const { under, items } = wrap(stack)
  const wrapped = items[place]
  if (wrapped?.item.kind !== 'winding' || wrapped.item.turns < 2) return null
  const { item } = wrapped
  const used = new Set(
    items.flatMap(({ item: other }) =>
      other.kind === 'winding'
        ? [other.startPin, other.finishPin]
        : other.kind === 'shield'
          ? [other.pin]
          : [],
    ),
  )
  const [low, high] =
    (item.startPin ?? item.finishPin ?? 1) <= rows.rowOne
      ? [1, rows.rowOne]
      : [rows.rowOne + 1, rows.rowOne + rows.rowTwo]
  const free = Array.from({ length: high - low + 1 }, (_, i) => low + i).find((pin) => !used.has(pin)) ?? null
  const first = Math.ceil(item.turns / 2)
  const halves: Wrapped[] = [
    { item: { ...item, turns: first, finishPin: free }, over: 1 },
    { item: { ...item, turns: item.turns - first, startPin: free }, over: wrapped.over },
  ]
  return unwrap(under, [...items.slice(0, place), ...halves, ...items.slice(place + 1)])
}

/** Joins the winding at a place with the next one out where both are parts of one winding. Null where they are not. */
export function joinWinding(stack: readonly StackItem[], place: number): readonly StackItem[] | null {
  const { under, items } = wrap(stack)
  const below = items[place]
  const above = items[place + 1]
  if (below?.item.kind !== 'winding' || above?.item.kind !== 'winding') return null
  if (below.item.winding !== above.item.winding || below.item.direction !== above.item.direction) return null
  const joined: Wrapped = {
    item: {
      ...below.item,
      turns: below.item.turns + above.item.turns,
      finishPin: above.item.finishPin,
    },
    over: above.over,
  }
  return unwrap(under, [...items.slice(0, place), joined, ...items.slice(place + 2)])
}

/**
 * Parts of one winding are joined in the order in which they lie: after a move, the chain of pins of each winding runs
 * from its first start to its last finish through the same joints.
 */
function rejoin(stack: readonly StackItem[]): readonly StackItem[] {
  const chains = new Map<string, (number | null)[]>()
  for (const item of stack)
    if (item.kind === 'winding')
      chains.set(item.winding, [...(chains.get(item.winding) ?? []), item.startPin, item.finishPin])
  const joints = new Map<string, (number | null)[]>()
  for (const [winding, pins] of chains) {
    const once = pins.filter((pin) => pin !== null && pins.filter((p) => p === pin).length === 1)
    const offPins = pins.filter((pin) => pin === null).length / 2
    const start = pins.filter((_, i) => i % 2 === 0).find((pin) => once.includes(pin))
    const finish = pins.filter((_, i) => i % 2 === 1).find((pin) => once.includes(pin))
    const onPins = new Set(pins.filter((pin) => pin !== null && !once.includes(pin)))
    const middle = [...onPins, ...Array<null>(Math.floor(offPins)).fill(null)]
    if (start === undefined || finish === undefined || middle.length !== pins.length / 2 - 1) continue
    joints.set(winding, [start, ...middle.flatMap((pin) => [pin, pin]), finish])
  }
  return stack.map((item) => {
    if (item.kind !== 'winding') return item
    const chain = joints.get(item.winding)
    if (chain === undefined) return item
    const [startPin, finishPin] = chain.splice(0, 2)
    return { ...item, startPin: startPin ?? null, finishPin: finishPin ?? null }
  })
}
