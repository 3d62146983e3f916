import { fitSteinmetz, sineLoss } from '../../magnetics/material/index.ts'
import type { Diode, Drawer, Former, Material, Wire } from '../../parts/part.ts'
import type { Places } from '../../supply/build.ts'
import { cheapest, cheapestOrNearest, held } from '../pick.ts'
import type { Sizing } from '../sizing.ts'
import { nearestWire } from './output-kit.ts'

/** Parts that every supply has and that hardly decide anything: clamp and bias diode, bias capacitor and wire. */
export interface SmallKit {
  readonly places: Pick<Places, 'clampDiode' | 'biasDiode' | 'biasCapacitor' | 'biasWire'>
}

/** Highest bias voltage that parts are chosen for, V: the usual one of switchers with room for its trim. */
const biasMost_V = 20

export function smallKit(drawer: Drawer, z: Sizing): SmallKit {
  const diodes = held(drawer, 'diode')
  const standsClamp_V = 1.1 * (z.crest_V + 1.9 * z.reflected_V)
  const biasReverse_V = 1.3 * (biasMost_V + (z.crest_V * 15) / z.reflected_V)
  const size = (d: Diode) => d.average_A * 1000 + d.reverse_V
  const clampDiode = cheapestOrNearest(
    diodes,
    (d) => d.reverse_V >= standsClamp_V && d.recovery_s > 0 && d.recovery_s <= 300e-9,
    size,
    (d) => d.reverse_V / (1 + d.recovery_s * 1e7),
  )!
  const biasDiode = cheapestOrNearest(
    diodes,
    (d) => d.reverse_V >= biasReverse_V && d.technology !== 'standard',
    size,
    (d) => d.reverse_V,
  )!
  const capacitors = held(drawer, 'capacitor')
  const electrolytics = capacitors.filter((c) => c.technology === 'electrolytic')
  const biasCapacitor = cheapestOrNearest(
    electrolytics.length > 0 ? electrolytics : capacitors,
    (c) => c.voltage_V >= 30 && c.voltage_V <= 100 && c.capacitance_F >= 40e-6,
    (c) => c.capacitance_F * c.voltage_V,
    (c) => -Math.abs(c.voltage_V - 35),
  )!
  const wires = held(drawer, 'wire')
  const enamelled = wires.filter((w) => w.construction === 'enamelled')
  const biasWire: Wire = nearestWire(enamelled.length > 0 ? enamelled : wires, 0.2e-3)!
  return {
    places: {
      clampDiode: clampDiode.id,
      biasDiode: biasDiode.id,
      biasCapacitor: biasCapacitor.id,
      biasWire: biasWire.id,
    },
  }
}

/** Narrowest thin tape that reaches from flange to flange of a former, to be cut down to it; else the widest. */
export const tapeFor = (drawer: Drawer, former: Former): string =>
  cheapestOrNearest(
    held(drawer, 'tape'),
    (t) => t.width_m >= former.width_m && t.thickness_m >= 50e-6 && t.thickness_m <= 70e-6,
    (t) => t.width_m,
    (t) => t.width_m,
  )!.id

/** The ferrite of least loss at 0.1 T, hot, at a frequency. */
export const bestMaterial = (materials: readonly Material[], frequency_Hz: number): Material =>
  cheapest(
    materials,
    () => true,
    (m) => {
      const fit = fitSteinmetz(m.lossPoints)
      return fit.ok ? sineLoss(fit.value, frequency_Hz, 0.1, 100) : Number.MAX_VALUE
    },
  )!
