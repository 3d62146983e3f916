import type { Avalanche } from '../part.ts'
import { rounded } from './units.ts'

/**
 * Avalanche devices by pulse class: peak power of a 10/1000 us pulse, steady power at a lead temperature of 75 °C.
 * The clamp voltage is that at the full pulse current, 1.37 times the breakdown typical of the class.
 */
const classes = [
  { pulse_W: 400, steady_W: 3.3, ambient_K_per_W: 90, breakdowns_V: [150, 180, 200] },
  { pulse_W: 600, steady_W: 5, ambient_K_per_W: 75, breakdowns_V: [120, 150, 160, 170, 180, 200, 220, 250] },
  { pulse_W: 1500, steady_W: 6.5, ambient_K_per_W: 60, breakdowns_V: [150, 180, 200, 220] },
] as const

export const starterAvalanches: readonly Avalanche[] = classes.flatMap((pulse) =>
  pulse.breakdowns_V.map((typical) => {
    const clampVoltage_V = rounded(1.37 * typical)
    return {
      id: `avalanche-${typical}v-${pulse.pulse_W}w`,
      kind: 'avalanche' as const,
      name: `${typical} V avalanche device, ${pulse.pulse_W} W pulse, ${pulse.steady_W} W`,
      source: 'typical of the trade, no source',
      breakdown_V: { minimum: rounded(0.95 * typical), typical, maximum: rounded(1.05 * typical, 4) },
      clampVoltage_V,
      clampCurrent_A: rounded(pulse.pulse_W / clampVoltage_V),
      power_W: pulse.steady_W,
      junctionToAmbient_K_per_W: pulse.ambient_K_per_W,
      maximumJunction_C: 175,
    }
  }),
)
