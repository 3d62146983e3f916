import { problemsOf } from '../engine/file/sentence.ts'
import { parseMains, parseQuantity, parseRange, type Unit } from '../engine/quantity/index.ts'
import { type Need, need } from '../engine/supply/need.ts'
import { InputError } from './command.ts'

/** Flags that say what is needed; values as people type them. */
export const needOptions = {
  volts: { type: 'string' },
  amps: { type: 'string' },
  input: { type: 'string' },
  dc: { type: 'string' },
  nominal: { type: 'string' },
  frequency: { type: 'string' },
  trim: { type: 'string' },
  ripple: { type: 'string' },
  'hold-up': { type: 'string' },
  ambient: { type: 'string' },
  cooling: { type: 'string' },
  feeds: { type: 'string' },
  insulation: { type: 'string' },
  pollution: { type: 'string' },
  altitude: { type: 'string' },
  earthed: { type: 'boolean' },
} as const

type TextFlag = Exclude<keyof typeof needOptions, 'earthed'>
type NeedFlags = { readonly [K in TextFlag]?: string | undefined } & {
  readonly earthed?: boolean | undefined
}

export const needHelp = `  --volts <V>        output voltage, required
  --amps <A>         output current, required
  --input <range>    mains, as "85-265 V" or "230 V ±6 %"; "230 V" alone is ±10 %   (195-265 V)
  --dc <range>       a DC bus instead of mains, as "100-380 V"
  --nominal <V>      usual input   (as --input says, else 230 V or 120 V when in range)
  --frequency <Hz>   of the mains   (50 Hz)
  --trim <range>     what the trimmer must reach, as "22-26 V"   (no trim)
  --ripple <V>       peak to peak at the load   (1 % of the output)
  --hold-up <s>      how long the output lasts after the mains goes   (0)
  --ambient <°C>     hottest surroundings   (40)
  --cooling <how>    open, case-vented, case-closed or fan   (case-vented)
  --feeds <what>     resistive, electronics or charging   (electronics)
  --insulation <c>   basic or reinforced   (reinforced)
  --pollution <n>    pollution degree 1, 2 or 3   (2)
  --altitude <m>     greatest altitude of use   (2000)
  --earthed          the output is tied to protective earth   (not)`

function quantity(flag: string, text: string, unit: Unit, bare?: string): number {
  const read = parseQuantity(text, unit, bare)
  if (!read.ok) throw new InputError(`--${flag}: ${read.message}`)
  return read.value
}

function range(flag: string, text: string, unit: Unit): { low: number; high: number } {
  const read = parseRange(text, unit)
  if (!read.ok) throw new InputError(`--${flag}: ${read.message}`)
  return read
}

function mainsRange(text: string): { low: number; high: number; middle?: number } {
  const read = parseMains(text)
  if (!read.ok) throw new InputError(`--input: ${read.message}`)
  return read
}

function required(flag: string, text: string | undefined, example: string): string {
  if (text === undefined) throw new InputError(`--${flag} is missing; give it as --${flag} ${example}`)
  return text
}

/** Usual mains inside a range, or its middle. */
function usual(low: number, high: number): number {
  const known = [230, 120].find((v) => low <= v && v <= high)
  return known ?? Math.round((low + high) / 2)
}

function sourceOf(f: NeedFlags): Need['source'] {
  if (f.dc !== undefined && f.input !== undefined)
    throw new InputError('--dc and --input are two different sources; give one of them')
  if (f.dc !== undefined) {
    const { low, high } = range('dc', f.dc, 'V')
    const nominal = f.nominal === undefined ? (low + high) / 2 : quantity('nominal', f.nominal, 'V')
    return { kind: 'dc', minimum_V: low, nominal_V: nominal, maximum_V: high }
  }
  const { low, high, middle } = mainsRange(f.input ?? '195-265 V')
  return {
    kind: 'mains',
    minimum_Vrms: low,
    nominal_Vrms:
      f.nominal === undefined ? (middle ?? usual(low, high)) : quantity('nominal', f.nominal, 'V'),
    maximum_Vrms: high,
    frequency_Hz: quantity('frequency', f.frequency ?? '50 Hz', 'Hz'),
  }
}

/** The flag in which a problem of the need lies, for its sentence. */
const flagOfField: Readonly<Record<string, TextFlag>> = {
  output_V: 'volts',
  output_A: 'amps',
  source: 'input',
  trimLow_V: 'trim',
  trimHigh_V: 'trim',
  ripple_Vpp: 'ripple',
  holdUp_s: 'hold-up',
  ambient_C: 'ambient',
  cooling: 'cooling',
  feeds: 'feeds',
  insulation: 'insulation',
  pollutionDegree: 'pollution',
  altitude_m: 'altitude',
}

/** Reads a need from flags; throws an InputError that names the flag and the value. */
export function needFromFlags(f: NeedFlags): Need {
  const output_V = quantity('volts', required('volts', f.volts, '24'), 'V')
  const trim = f.trim === undefined ? { low: output_V, high: output_V } : range('trim', f.trim, 'V')
  const raw = {
    source: sourceOf(f),
    output_V,
    trimLow_V: trim.low,
    trimHigh_V: trim.high,
    output_A: quantity('amps', required('amps', f.amps, '3'), 'A'),
    ripple_Vpp: f.ripple === undefined ? output_V / 100 : quantity('ripple', f.ripple, 'V'),
    holdUp_s: quantity('hold-up', f['hold-up'] ?? '0', 's'),
    ambient_C: quantity('ambient', f.ambient ?? '40', 'C'),
    cooling: f.cooling ?? 'case-vented',
    feeds: f.feeds ?? 'electronics',
    insulation: f.insulation ?? 'reinforced',
    pollutionDegree: quantity('pollution', f.pollution ?? '2', '1'),
    altitude_m: quantity('altitude', f.altitude ?? '2000', 'm', 'm'),
    ...(f.earthed === true && { outputEarthed: true }),
  }
  const checked = need.safeParse(raw)
  if (checked.success) return checked.data
  const sentences = problemsOf(checked.error.issues, raw).map((problem) => {
    const [field = '', inner = ''] = problem.path.split('.')
    const flag =
      inner === 'frequency_Hz' ? 'frequency' : f.dc && field === 'source' ? 'dc' : flagOfField[field]
    return flag === undefined ? `${problem.path}: ${problem.message}` : `--${flag}: ${problem.message}`
  })
  throw new InputError(sentences.join('\n'))
}
