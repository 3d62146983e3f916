import { type Assessment, assess } from '../../../src/engine/limits/index.ts'
import { starterDrawer } from '../../../src/engine/parts/starter/index.ts'
import { r1 } from '../r1/r1.ts'

/** The reference supply judged, with changes. */
export function judged(change: Parameters<typeof r1>[0] = {}): Assessment {
  const a = assess(r1(change))
  if (!a.ok) throw new Error(JSON.stringify(a.problems))
  return a.value
}

/** Incandescent lamps of the starter drawer. */
export const lamps = starterDrawer.entries.map((e) => e.part).filter((p) => p.kind === 'lamp')

/** Everything that the plan knows. */
export const everything = [
  'multimeter',
  'lamp',
  'lcr-meter',
  'esr-meter',
  'isolation-transformer',
  'variac',
  'bench-supply',
  'oscilloscope',
  'differential-probe',
  'current-probe',
  'signal-generator',
  'pulse-tester',
  'insulation-tester',
  'wattmeter',
  'electronic-load',
  'load-resistors',
  'infrared-thermometer',
  'thermal-camera',
  'thermocouple',
]

/** Repeatable uniform numbers (Mulberry32). */
export function seeded(seed: number): () => number {
  let s = seed >>> 0
  return () => {
    s = (s + 0x6d2b79f5) >>> 0
    let t = Math.imul(s ^ (s >>> 15), 1 | s)
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296
  }
}

/** Repeatable normal numbers (Box and Muller). */
export const normal = (uniform: () => number): number =>
  Math.sqrt(-2 * Math.log(uniform() + 1e-12)) * Math.cos(2 * Math.PI * uniform())
