import { type Assessment, assess } from '../../src/engine/limits/index.ts'
import type { Supply } from '../../src/engine/supply/supply.ts'
import { r1 } from '../reference/r1/r1.ts'

type Change = NonNullable<Parameters<typeof r1>[0]>

/** What differs between the supplies that papers are tried on. */
const changes = {
  simple: {},
  split: { build: { transformer: { splitPrimary: true } } },
  margins: {
    build: {
      places: { secondaryWire: 'wire-0.4mm-grade-2', primaryWire: 'wire-0.28mm-grade-2' },
      transformer: { insulation: 'margins', splitPrimary: true },
    },
  },
  threeLayers: {
    build: {
      places: { secondaryWire: 'wire-0.4mm-grade-2', primaryWire: 'wire-0.28mm-grade-2' },
      transformer: { insulation: 'margins', margin_m: 0.0025 },
    },
  },
  litz: {
    build: {
      places: { primaryWire: 'litz-15x0.071mm', secondaryWire: 'litz-60x0.1mm' },
      transformer: { insulation: 'margins', splitPrimary: true },
    },
  },
  spacer: { build: { places: { spacerFilm: 'film-0.025mm' }, transformer: { gapPlace: 'all-legs' } } },
  everything: {
    need: { trimLow_V: 11, trimHigh_V: 13.5 },
    build: {
      places: {
        varistor: 'varistor-275v-10mm',
        xCapacitor: 'capacitor-x2-220nf-275v',
        commonModeChoke: 'common-mode-choke-6.8mh-2a',
        yCapacitor: 'capacitor-y1-2.2nf-400v',
        choke: 'toroid-12.7mm-alloy-60',
        chokeWire: 'wire-0.9mm-grade-1',
        secondCapacitor: 'capacitor-lowesr-220uf-25v',
        trimmer: 'trimmer-500',
      },
      transformer: { splitPrimary: true },
      snubber: { resistor_ohm: 22, capacitor_F: 1e-9 },
      outputCount: 2,
      feedback: { highFrequencyCapacitor_F: 1e-9, softFinishCapacitor_F: 10e-6, senseAfterChoke: true },
    },
  },
  avalanche: {
    build: {
      places: { bridge: null, ntc: null, clampAvalanche: 'avalanche-150v-600w', indicator: null },
      clamp: { style: 'avalanche' },
    },
  },
  peakCurrent: { build: { places: { switcher: 'switcher-700v-4r-peak' } } },
  interleaved: {
    build: {
      transformer: {
        biasTurns: 9,
        stack: [
          {
            kind: 'winding',
            winding: 'primary',
            turns: 21,
            direction: 'clockwise',
            startPin: 1,
            finishPin: 2,
          },
          { kind: 'tape', layers: 3 },
          {
            kind: 'winding',
            winding: 'secondary',
            turns: 4,
            direction: 'clockwise',
            startPin: 10,
            finishPin: 9,
          },
          { kind: 'tape', layers: 3 },
          {
            kind: 'winding',
            winding: 'primary',
            turns: 42,
            direction: 'clockwise',
            startPin: 2,
            finishPin: 3,
          },
          { kind: 'tape', layers: 3 },
          {
            kind: 'winding',
            winding: 'secondary',
            turns: 4,
            direction: 'clockwise',
            startPin: 9,
            finishPin: 8,
          },
          { kind: 'tape', layers: 3 },
          { kind: 'winding', winding: 'bias', turns: 9, direction: 'clockwise', startPin: 4, finishPin: 5 },
          { kind: 'tape', layers: 2 },
        ],
      },
    },
  },
} as const satisfies Record<string, unknown>

export type SupplyName = keyof typeof changes
export const supplyNames = Object.keys(changes) as SupplyName[]

/** One of the supplies, by name: R1 with another transformer, clamp or input. */
export function supplyOf(name: SupplyName): Supply {
  const supply = r1(changes[name] as Change)
  if (name !== 'avalanche') return supply
  const source = { kind: 'dc', minimum_V: 120, nominal_V: 325, maximum_V: 375 } as const
  return { ...supply, need: { ...supply.need, source } }
}

/** A supply judged; throws where it cannot be built, which for these is a fault of the test. */
export function judged(supply: Supply): Assessment {
  const result = assess(supply)
  if (!result.ok) throw new Error(result.problems.map((p) => `${p.path}: ${p.message}`).join('\n'))
  return result.value
}

export const assessmentOf = (name: SupplyName): Assessment => judged(supplyOf(name))
