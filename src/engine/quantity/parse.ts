import { readDecimal, scaled } from './decimal.ts'
import { type Scale, type Unit, type UnitDefinition, units } from './unit.ts'
import { readGauge } from './wire-gauge.ts'

/** A text that is not the quantity wanted: what was typed, what was expected, and a sentence that says both. */
export interface QuantityProblem {
  readonly ok: false
  readonly text: string
  readonly expected: string
  readonly message: string
}

export type QuantityResult = { readonly ok: true; readonly value: number } | QuantityProblem
export type RangeResult =
  | {
      readonly ok: true
      readonly low: number
      readonly high: number
      /** The value between them, where it was written: `230 V` of `230 V ±10 %`. */
      readonly middle?: number
    }
  | QuantityProblem

const powers: Readonly<Record<string, number>> = { p: -12, n: -9, u: -6, m: -3, k: 3, M: 6, G: 9 }

/** One spelling for the many that keyboards and data sheets give. */
const tidy = (text: string) =>
  text
    .replace(/[\u00a0\u2000-\u200b\u202f\u205f\u3000\s]+/g, ' ')
    .trim()
    .replace(/[\u00b5\u03bc]/g, 'u')
    .replace(/[\u2126\u03a9]/g, 'ohm')
    .replace(/[\u2212\u2010\u2011]/g, '-')
    .replace(/\u00b2/g, '2')
    .replace(/\u00b3/g, '3')
    .replace(/[\u00ba\u02da]/g, '°')
    .replace(/[\u201d\u2033]/g, '"')
    .replace(/'(?=\d{3})/g, '')

function named(definition: UnitDefinition, name: string): Scale | undefined {
  if (Object.hasOwn(definition.names, name)) return definition.names[name]
  const alike = Object.keys(definition.names).filter((n) => n.toLowerCase() === name.toLowerCase())
  return alike.length === 1 ? definition.names[alike[0]!] : undefined
}

/** Scale of what stands after the number: a name, a prefix and a name, or a prefix alone. */
function scaleOf(definition: UnitDefinition, suffix: string): Scale | undefined {
  const name = (suffix === '' ? definition.bare : suffix).replace(/[ ^]/g, '').replace(/^meg/i, 'M')
  const whole = named(definition, name)
  if (whole) return whole
  const prefix = name[0] === 'K' ? 'k' : name[0]!
  if (!definition.typed.includes(prefix)) return undefined
  const rest = name.slice(1)
  const fits = rest === '' || definition.prefixed.some((n) => n.toLowerCase() === rest.toLowerCase())
  return fits ? { power: powers[prefix]! } : undefined
}

const apply = (decimal: string, scale: Scale) =>
  'power' in scale ? scaled(decimal, scale.power) : Number(decimal) * scale.factor + (scale.offset ?? 0)

/** `4k7`, `1R5`, `R47`, `4u7F`, `3V3`: a letter in the place of the decimal point (IEC 60062). */
function readLetterCode(text: string, definition: UnitDefinition): number | undefined {
  const found = /^([+-]?\d*)([pnumkKMGRVAHF])(\d+) ?([a-z/²2]*)$/i.exec(text)
  if (!found) return undefined
  const [, whole, letter, part, rest] = found
  if (letter === 'm' && Object.hasOwn(definition.names, 'm')) return undefined
  const decimal = `${whole === '' ? '0' : whole}.${part}`
  const unitLetter = letter!.toUpperCase()
  if ('RVAHF'.includes(unitLetter)) {
    const fits = rest === '' && Object.hasOwn(definition.names, unitLetter)
    return fits ? Number(decimal) : undefined
  }
  const prefix = letter === 'K' ? 'k' : letter!
  const unitFits = rest === '' || definition.prefixed.some((n) => n.toLowerCase() === rest!.toLowerCase())
  return unitFits && definition.typed.includes(prefix) ? scaled(decimal, powers[prefix]!) : undefined
}

const problem = (text: string, definition: UnitDefinition, why?: string): QuantityProblem => {
  const expected = `${definition.quantity} such as ${definition.example}`
  return {
    ok: false,
    text,
    expected,
    message: `"${text}" is not ${definition.quantity}${why ? ` (${why})` : ''}; write it as ${definition.example}`,
  }
}

/**
 * Reads a quantity as people type it, into SI units (°C for temperatures): `4.7 mH`, `4m7`, `0,6 mm`, `100k`, `1R5`,
 * `47uF`, `1e-3`, `20 %`, `13 thou`, `3300 gauss`; for a length or an area also a wire gauge (`AWG 28`, `28 swg`).
 * A number alone takes `bare` (a name of that unit), by default the SI unit, millimetres for lengths and mm² and mm³.
 * A share alone must be 0 to 1. The result is finite, or a problem that names the text and what was expected.
 */
export function parseQuantity(text: string, unit: Unit, bare?: string): QuantityResult {
  const base: UnitDefinition = units[unit]
  const definition = bare === undefined ? base : { ...base, bare }
  const clean = tidy(text)
  if (clean.length > 60) return problem(`${text.slice(0, 40)}…`, definition, 'it is too long')
  if (unit === 'm' || unit === 'm2') {
    const gauge = readGauge(clean)
    if (typeof gauge === 'string') return problem(text, definition, gauge)
    if (gauge !== undefined) return { ok: true, value: unit === 'm' ? gauge : (Math.PI / 4) * gauge ** 2 }
  }
  const coded = readLetterCode(clean, definition)
  if (coded !== undefined) return { ok: true, value: coded }
  const read = readDecimal(clean)
  if (!read.ok) return problem(text, definition, clean === '' ? 'nothing is written' : read.why)
  const suffix = read.rest.trim()
  const scale = scaleOf(definition, suffix)
  if (!scale) return problem(text, definition, `${suffix} is not its unit`)
  const value = apply(read.decimal, scale)
  if (!Number.isFinite(value)) return problem(text, definition, 'it is too large')
  if (unit === 'fraction' && suffix === '' && bare === undefined && Math.abs(value) > 1)
    return problem(text, definition, `a share is 0 to 1, or ${read.decimal} %`)
  return { ok: true, value }
}

/** Places where a range may be cut in two: dashes that are not a sign or part of a power of ten, dots, "to". */
const cuts = (text: string) => [...text.matchAll(/ ?(?:\.{2,3}|…|–|—|(?<=[^e\s(]) ?- ?|\bto\b) ?/gi)]

/** `230 V ±10 %`, `230 V +/-10 %`, `230 V ±23 V`. */
const evenly = /^(.+?) ?(?:±|\+ ?\/? ?-) ?([\d.,]+ ?\D*)$/
/** `230 V +10 % -6 %`, `230 V -15/+10 %`. */
const unevenly = /^(.+?) ?([+-]) ?([\d.,]+) ?%?[ /]*([+-]) ?([\d.,]+) ?%$/

/** How far a range goes to one side of its middle: a share of it, or a quantity of its own. */
function reachOf(text: string, middle: number, unit: Unit, bare?: string): QuantityResult {
  if (!text.endsWith('%')) return parseQuantity(text, unit, bare)
  const part = parseQuantity(text, 'fraction')
  return part.ok ? { ok: true, value: part.value * Math.abs(middle) } : part
}

/** The range about a middle, free of the noise of the last binary digits. */
const around = (middle: number, below: number, above: number): RangeResult => ({
  ok: true,
  low: Number((middle - below).toPrecision(12)),
  high: Number((middle + above).toPrecision(12)),
  middle,
})

/** A range from its middle and how far it goes down and up from there. */
function rangeAbout(text: string, down: string, up: string, unit: Unit, bare?: string): RangeResult {
  const middle = parseQuantity(text, unit, bare)
  if (!middle.ok) return middle
  const below = reachOf(down, middle.value, unit, bare)
  if (!below.ok) return below
  const above = reachOf(up, middle.value, unit, bare)
  if (!above.ok) return above
  return around(middle.value, below.value, above.value)
}

/** A range written about its middle; undefined where it is written otherwise. */
function readAbout(text: string, unit: Unit, bare?: string): RangeResult | undefined {
  if (text.length > 60) return undefined
  const even = evenly.exec(text)
  if (even) return rangeAbout(even[1]!, even[2]!, even[2]!, unit, bare)
  const uneven = unevenly.exec(text)
  if (!uneven || uneven[2] === uneven[4]) return undefined
  const [first, second] = [`${uneven[3]} %`, `${uneven[5]} %`]
  const [down, up] = uneven[2] === '-' ? [first, second] : [second, first]
  return rangeAbout(uneven[1]!, down, up, unit, bare)
}

/**
 * Reads a range: `85-265 V`, `0.4 .. 0.6 mm`, `10 to 22 mH`, `230 V ±10 %`, `230 V ±23 V`, `230 V +10 % -6 %`, or one
 * value alone. A unit written only at the end holds for both. Low is never above high.
 */
export function parseRange(text: string, unit: Unit, bare?: string): RangeResult {
  const clean = tidy(text)
  const about = readAbout(clean, unit, bare)
  if (about) return about
  const alone = parseQuantity(text, unit, bare)
  if (alone.ok) return { ok: true, low: alone.value, high: alone.value }
  for (const cut of cuts(clean)) {
    const left = clean.slice(0, cut.index)
    const right = clean.slice(cut.index + cut[0].length)
    const high = parseQuantity(right, unit, bare)
    if (!high.ok) continue
    const read = readDecimal(left)
    const lent = read.ok && read.rest === '' ? left + lastUnit(right) : left
    const low = parseQuantity(lent, unit, bare)
    if (!low.ok) continue
    if (low.value > high.value)
      return problem(text, units[unit], `its low end ${left} is above its high end ${right}`)
    return { ok: true, low: low.value, high: high.value }
  }
  return alone
}

/** Tolerance of public mains about its nominal voltage (IEC 60038: within 10 %). */
const mainsTolerance = 0.1

/** Reads mains as `parseRange` does; a voltage alone is the nominal one, and stands for 10 % to either side. */
export function parseMains(text: string): RangeResult {
  const alone = parseQuantity(text, 'V')
  if (!alone.ok) return parseRange(text, 'V')
  const reach = mainsTolerance * Math.abs(alone.value)
  return around(alone.value, reach, reach)
}

/** What stands after the number, to be lent to a number without a unit. */
const lastUnit = (text: string) => {
  const read = readDecimal(text)
  return read.ok ? read.rest : ''
}
