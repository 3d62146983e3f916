import type { Spot } from '../../engine/supply/refs.ts'
import { buildStrings } from './build.ts'

const extra = {
  transformer: 'Transformer',
  primary: 'Primary',
  secondary: 'Secondary',
  bias: 'Bias winding',
  clampResistor: 'Clamp resistor',
  clampCapacitor: 'Clamp capacitor',
  snubberResistor: 'Snubber resistor',
  snubberCapacitor: 'Snubber capacitor',
  bleed: 'Bleed resistor',
  dividerTop: 'Divider, top',
  dividerBottom: 'Divider, bottom',
  ledResistor: 'LED resistor',
  biasResistor: 'Bias resistor',
  compensationResistor: 'Compensation resistor',
  compensationCapacitor: 'Compensation capacitor',
  highFrequencyCapacitor: 'High-frequency capacitor',
  softFinishCapacitor: 'Soft-finish capacitor',
  indicatorResistor: 'Indicator resistor',
  controlCapacitor: 'Control capacitor',
  output: 'Output',
  input: 'Input',
} as const

/** Name of a part or place for people. */
export const spotLabel = (spot: Spot): string =>
  spot in extra
    ? extra[spot as keyof typeof extra]
    : buildStrings.places[spot as keyof typeof buildStrings.places]
