import {
  type FlybackStage,
  modulatorOf,
  type OutputFilter,
  outputRipple,
  powerStage,
} from '../../loop/index.ts'
import type { Capacitor, Drawer, Part } from '../../parts/part.ts'
import type { Design } from '../design.ts'

/** A part that a remedy takes. */
export interface RemedyPart {
  readonly part: Part
  /** How many more than the supply has already. */
  readonly pieces: number
  /** Whether the drawer holds them besides those in use. */
  readonly have: boolean
}

/** Another filter, and the switching ripple at the load that it would leave. */
export interface RippleRemedy {
  readonly id: 'another capacitor' | 'more choke' | 'choke and capacitor' | 'ceramic'
  readonly load_Vpp: number
  /** Empty where no part is needed or the drawer has none that serves. */
  readonly parts: readonly RemedyPart[]
  /** Turns of the choke on its ring, where the remedy is to wind it anew or to wind one. */
  readonly turns: number | null
  /** Price of the parts in the builder's own currency; null where one has none. */
  readonly price: number | null
}

/** A choke and capacitor that are always worth a try: 4.7 uH of 10 mohm, 220 uF of 50 mohm. */
const usualSecond = {
  inductance_H: 4.7e-6,
  resistance_ohm: 0.01,
  capacitance_F: 220e-6,
  capacitorResistance_ohm: 0.05,
}
/** Ceramic capacitor across the last electrolytic where the drawer has none: 22 uF as biased, 5 mohm. */
const usualCeramic = { capacitance_F: 22e-6, resistance_ohm: 0.005 }
/** What DC bias leaves of a ceramic capacitor of high permittivity, and its resistance. Common practice, no source. */
const biased = { left: 0.5, least_ohm: 0.003 }

interface Trial {
  readonly id: RippleRemedy['id']
  readonly filter: OutputFilter
  readonly parts?: readonly RemedyPart[]
  readonly turns?: number | null
}

/** What would lower the switching ripple at the load: each with the parts of the drawer that it takes. */
export function rippleRemedies(design: Design, stage: FlybackStage, drawer: Drawer | null): RippleRemedy[] {
  const modulator = modulatorOf(design.parts.switcher)
  return trials(design, stage, drawer).flatMap(({ id, filter, parts = [], turns = null }) => {
    const changed = { ...stage, filter }
    const small = powerStage(changed, modulator)
    if (!small.ok) return []
    return [{ id, load_Vpp: outputRipple(changed, small).load_Vpp, parts, turns, price: priceOf(parts) }]
  })
}

function trials(design: Design, { filter, frequency_Hz }: FlybackStage, drawer: Drawer | null): Trial[] {
  const { parts, supply } = design
  const { outputCount } = supply.build
  const more = (outputCount + 1) / outputCount
  const ceramic = ceramicOf(design, drawer)
  const small = ceramic
    ? {
        capacitance_F: biased.left * ceramic.capacitance_F,
        resistance_ohm: Math.max(biased.least_ohm, ceramic.resistance_ohm),
      }
    : usualCeramic
  const oneMore: Trial = {
    id: 'another capacitor',
    filter: {
      ...filter,
      capacitance_F: filter.capacitance_F * more,
      capacitorResistance_ohm: filter.capacitorResistance_ohm / more,
    },
    parts: [taking(parts.outputCapacitor, 1, outputCount, drawer)],
  }
  const beyond: Trial = filter.second
    ? {
        id: 'more choke',
        filter: { ...filter, second: { ...filter.second, inductance_H: 2 * filter.second.inductance_H } },
        turns: Math.ceil(design.chokeTurns * Math.SQRT2),
      }
    : {
        id: 'choke and capacitor',
        filter: { ...filter, second: usualSecond },
        ...secondStage(design, drawer),
      }
  return [
    oneMore,
    beyond,
    {
      id: 'ceramic',
      filter: filter.second
        ? { ...filter, second: { ...filter.second, ...beside(filter.second, small, frequency_Hz) } }
        : { ...filter, ...beside(filter, small, frequency_Hz) },
      parts: ceramic ? [taking(ceramic, 1, 0, drawer)] : [],
    },
  ]
}

function taking(part: Part, pieces: number, used: number, drawer: Drawer | null): RemedyPart {
  const entry = drawer?.entries.find((candidate) => candidate.part.id === part.id)
  return {
    part: entry?.part ?? part,
    pieces,
    have: entry !== undefined && (entry.quantity === null || entry.quantity >= used + pieces),
  }
}

const partsIn = (drawer: Drawer | null): readonly Part[] => (drawer?.entries ?? []).map((entry) => entry.part)

const stands = (part: Capacitor, design: Design): boolean =>
  part.safetyClass === undefined && 0.9 * part.voltage_V >= design.need.trimHigh_V

/** The largest ceramic of the drawer that stands the output. */
const ceramicOf = (design: Design, drawer: Drawer | null): Capacitor | null =>
  partsIn(drawer)
    .filter((part) => part.kind === 'capacitor')
    .filter((part) => part.technology === 'ceramic' && stands(part, design) && part.capacitance_F >= 1e-6)
    .toSorted((a, b) => b.capacitance_F - a.capacitance_F)[0] ?? null

/** Ring and capacitor of the drawer nearest to the usual second stage, and the turns on that ring. */
function secondStage(design: Design, drawer: Drawer | null): Pick<Trial, 'parts' | 'turns'> {
  const all = partsIn(drawer)
  const capacitor = all
    .filter((part) => part.kind === 'capacitor')
    .filter((part) => part.technology === 'electrolytic' && stands(part, design))
    .toSorted((a, b) => far(a.capacitance_F) - far(b.capacitance_F) || a.voltage_V - b.voltage_V)[0]
  const ring = all
    .filter((part) => part.kind === 'toroid')
    .toSorted((a, b) => Math.abs(a.outer_m - usualRing_m) - Math.abs(b.outer_m - usualRing_m))[0]
  if (!capacitor || !ring) return {}
  return {
    parts: [taking(ring, 1, 0, drawer), taking(capacitor, 1, 0, drawer)],
    turns: Math.ceil(Math.sqrt(usualSecond.inductance_H / ring.inductanceFactor_H)),
  }
}

/** Ring that takes a few turns of thick wire, m. */
const usualRing_m = 15e-3

const far = (capacitance_F: number): number => Math.abs(Math.log(capacitance_F / usualSecond.capacitance_F))

const priceOf = (parts: readonly RemedyPart[]): number | null =>
  parts.reduce<number | null>(
    (sum, { part, pieces }) => (sum === null || part.price === undefined ? null : sum + pieces * part.price),
    0,
  )

/** The ceramic in parallel with a capacitor, as one capacitor with resistance that is the same at the frequency. */
function beside(
  { capacitance_F, capacitorResistance_ohm }: { capacitance_F: number; capacitorResistance_ohm: number },
  ceramic: { capacitance_F: number; resistance_ohm: number },
  frequency_Hz: number,
): { capacitance_F: number; capacitorResistance_ohm: number } {
  const w = 2 * Math.PI * frequency_Hz
  const admittance = (r: number, c: number): [number, number] => {
    const x = 1 / (w * c)
    const size = r * r + x * x
    return [r / size, x / size]
  }
  const [g1, b1] = admittance(capacitorResistance_ohm, capacitance_F)
  const [g2, b2] = admittance(ceramic.resistance_ohm, ceramic.capacitance_F)
  const g = g1 + g2
  const b = b1 + b2
  const size = g * g + b * b
  return { capacitorResistance_ohm: g / size, capacitance_F: size / (w * b) }
}
