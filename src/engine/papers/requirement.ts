import type { Limit } from '../limits/limit.ts'
import type { Design } from '../supply/design.ts'
import type { Spot } from '../supply/refs.ts'
import { withUnit } from './with-unit.ts'

/** A figure of a part that limits are held against: what it is called, its unit, and what this part has. */
interface Figure {
  readonly name: string
  readonly unit: string
  readonly own: (d: Design) => number | null | undefined
  /** Ratings that such parts are sold in: asked for is the next of them. */
  readonly sold?: readonly number[]
}

const capacitors_V = [6.3, 10, 16, 25, 35, 50, 63, 80, 100, 160, 200, 250, 400, 450, 500, 630]
const varistors_V = [130, 150, 175, 230, 250, 275, 300, 320, 385, 420, 460, 510]
const acrossMains_V = [250, 275, 305, 310, 400, 440, 500]

const figure = (name: string, unit: string, own: Figure['own'], sold?: readonly number[]): Figure => ({
  name,
  unit,
  own,
  ...(sold ? { sold } : {}),
})
const drain = figure('drain voltage', 'V', (d) => d.parts.switcher.drainVoltage_V)
const rectifierReverse = figure('reverse voltage', 'V', (d) => d.parts.rectifier.reverse_V)
const rectifierMean = figure('mean current', 'A', (d) => d.parts.rectifier.average_A)
const bridgeReverse = figure('reverse voltage', 'V', (d) => d.parts.bridge?.reverse_V)
const bridgeSurge = figure('surge current', 'A', (d) => d.parts.bridge?.surge_A)

/** Limits that ask something of the part itself; the others judge the design round it. */
const figures: Readonly<Record<string, Figure>> = {
  'switcher.drain-voltage': drain,
  'switcher.drain-margin': drain,
  'switcher.junction': figure('shutdown and junction from', '°C', (d) =>
    Math.min(d.parts.switcher.thermalShutdown_C.minimum, d.parts.switcher.maximumJunction_C),
  ),
  'clamp.avalanche-power': figure('power', 'W', (d) => d.parts.clampAvalanche?.power_W),
  'clamp.avalanche-junction': figure('junction', '°C', (d) => d.parts.clampAvalanche?.maximumJunction_C),
  'clamp.diode-reverse': figure('reverse voltage', 'V', (d) => d.parts.clampDiode.reverse_V),
  'clamp.diode-current': figure('mean current', 'A', (d) => d.parts.clampDiode.average_A),
  'clamp-diode.junction': figure('junction', '°C', (d) => d.parts.clampDiode.maximumJunction_C),
  'rectifier.reverse': rectifierReverse,
  'rectifier.reverse-margin': rectifierReverse,
  'rectifier.current': rectifierMean,
  'rectifier.size': rectifierMean,
  'rectifier.surge': figure('surge current', 'A', (d) => d.parts.rectifier.surge_A),
  'rectifier.junction': figure('junction', '°C', (d) => d.parts.rectifier.maximumJunction_C),
  'output-capacitor.ripple-current': figure(
    'ripple current at 100 kHz',
    'A',
    (d) => d.parts.outputCapacitor.ripple100kHz_A,
  ),
  'output-capacitor.voltage': figure('voltage', 'V', (d) => d.parts.outputCapacitor.voltage_V, capacitors_V),
  'second-capacitor.ripple-current': figure(
    'ripple current at 100 kHz',
    'A',
    (d) => d.parts.secondCapacitor?.ripple100kHz_A,
  ),
  'second-capacitor.voltage': figure('voltage', 'V', (d) => d.parts.secondCapacitor?.voltage_V, capacitors_V),
  'bias-diode.reverse': figure('reverse voltage', 'V', (d) => d.parts.biasDiode.reverse_V),
  'bias-diode.current': figure('mean current', 'A', (d) => d.parts.biasDiode.average_A),
  'bias-diode.junction': figure('junction', '°C', (d) => d.parts.biasDiode.maximumJunction_C),
  'bias-capacitor.voltage': figure('voltage', 'V', (d) => d.parts.biasCapacitor.voltage_V, capacitors_V),
  'bulk.voltage': figure('voltage', 'V', (d) => d.parts.bulkCapacitor.voltage_V, capacitors_V),
  'bulk.ripple-current': figure('ripple current at 100 Hz', 'A', (d) => d.parts.bulkCapacitor.ripple100Hz_A),
  'bridge.reverse': bridgeReverse,
  'bridge.mains-surge': bridgeReverse,
  'bridge.current': figure('mean current', 'A', (d) => d.parts.bridge?.average_A),
  'bridge.surge': bridgeSurge,
  'bridge.warm-restart': bridgeSurge,
  'bridge.junction': figure('junction', '°C', (d) => d.parts.bridge?.maximumJunction_C),
  'fuse.current': figure('rated current', 'A', (d) => d.parts.fuse?.rated_A),
  'fuse.inrush': figure('melting integral', 'A²s', (d) => d.parts.fuse?.meltingIntegral_A2s),
  'fuse.voltage': figure('voltage', 'V', (d) => d.parts.fuse?.voltage_V, [125, 250, 440, 500]),
  'ntc.current': figure('current', 'A', (d) => d.parts.ntc?.current_A),
  'ntc.capacitance': figure('capacitance behind it', 'F', (d) => d.parts.ntc?.maximumCapacitance_F),
  'varistor.voltage': figure(
    'continuous voltage',
    'V',
    (d) => d.parts.varistor?.continuous_Vrms,
    varistors_V,
  ),
  'x-capacitor.voltage': figure('voltage', 'V', (d) => d.parts.xCapacitor?.voltage_V, acrossMains_V),
  'y-capacitor.voltage': figure('voltage', 'V', (d) => d.parts.yCapacitor?.voltage_V, acrossMains_V),
  'choke.common-mode-current': figure('current', 'A', (d) => d.parts.commonModeChoke?.current_A),
  'optocoupler.collector': figure('collector voltage', 'V', (d) => d.parts.optocoupler.collector_V),
  'optocoupler.led-current': figure('LED current', 'A', (d) =>
    Math.min(d.parts.optocoupler.ledMaximum_A, d.parts.reference.maximumCathode_A),
  ),
  'reference.cathode-voltage': figure('cathode voltage', 'V', (d) => d.parts.reference.maximumCathode_V),
  'indicator.current': figure('current', 'A', (d) => d.parts.indicator?.maximum_A),
  'trimmer.power': figure('power', 'W', (d) => d.parts.trimmer?.power_W),
}

/**
 * The figure that a limit asks of any part there: the worst reading with the same room between the limit's rating and
 * the part's own figure, then up to what is sold where that is no more than what this part has.
 */
function asked(limit: Limit, { own, sold }: Figure, design: Design): number | null {
  const has = own(design)
  if (has === null || has === undefined || !(limit.rating > 0)) return null
  const value = limit.unit === '°C' ? limit.reading : (limit.reading * has) / limit.rating
  const next = sold?.find((rating) => rating >= value * (1 - 1e-9))
  return next !== undefined && (next <= has || value > has) ? next : value
}

/**
 * Requirement of a spot: the ratings to ask for in any part there, each the greatest that a limit on it asks, with the
 * room that the limits leave; bounds the other way round are said so.
 */
export function requirement(limits: readonly Limit[], spot: Spot, design: Design): string {
  const greatest = new Map<string, { readonly unit: string; readonly value: number }>()
  const words: string[] = []
  for (const limit of limits) {
    if (limit.id === 'y-capacitor.class' && spot === 'yCapacitor')
      words.push(`class ${limit.rating >= 2 ? 'Y1' : 'Y1 or Y2'}`)
    if (limit.id === 'reference.headroom' && spot === 'reference')
      words.push(`works from a cathode voltage ≤ ${withUnit(limit.reading, limit.unit)}`)
    const found = figures[limit.id]
    if (!found || limit.spot !== spot) continue
    const value = asked(limit, found, design)
    const before = greatest.get(found.name)
    if (value !== null && !(before && before.value >= value))
      greatest.set(found.name, { unit: found.unit, value })
  }
  const ratings = [...greatest].map(([name, { unit, value }]) => `${name} ≥ ${withUnit(value, unit)}`)
  return [...words, ...ratings].join('; ')
}
