import type { InstrumentId } from '../instruments.ts'
import type { Way } from './types.ts'

const way = (
  instruments: readonly InstrumentId[],
  how: string,
  isolation: string | null = null,
  substitute = false,
): Way => ({ instruments, how, isolation, substitute })

const floatingMeter =
  'Battery meter, its mains-rated leads clipped on while everything is discharged; hands off meter and leads while live.'
const floatingProbe =
  'Differential probe: both inputs float, its own earth clip stays unused. Clip on while discharged.'
const isolated =
  'Only with an isolation transformer between wall and supply (a variac does not isolate): the one earthed clip then makes the primary return earth, and nothing else on the supply may be earthed.'
const outputSide =
  'Output side only, parted from mains by the barrier that was read cold. Output unearthed and unloaded by anything valued.'

/** Ways with nothing live. */
export const cold = {
  ohms: [way(['multimeter'], 'Ohms range, leads on the two points; wait until the reading settles.')],
  windingOhms: [
    way(
      ['multimeter', 'bench-supply'],
      'Below 1 ohm by four wires: 1 A from the bench supply, millivolts read at the pins themselves.',
    ),
    way(
      ['multimeter'],
      'Ohms range, leads at the pins, what the joined leads read taken off; good to 0.1 ohm.',
      null,
      true,
    ),
  ],
  milliohms: [
    way(
      ['multimeter', 'bench-supply'],
      'By four wires: 1 A from the bench supply, millivolts read at the pins themselves; an ohms range cannot tell it from a short.',
    ),
  ],
  diode: [way(['multimeter'], 'Diode test, red lead first named.')],
  insulation: [
    way(
      ['insulation-tester'],
      '500 V DC for a minute, all primary pins joined against all secondary pins; discharge after.',
    ),
    way(['multimeter'], 'Highest ohms range: shows gross faults only, at a few volts.', null, true),
  ],
  capacitance: [
    way(['lcr-meter'], 'Capacitance at 100 or 120 Hz, out of circuit or with one leg lifted.'),
    way(['multimeter'], 'Capacitance range, discharged, one leg lifted.', null, true),
  ],
  esr: [
    way(['esr-meter'], 'In circuit, discharged.'),
    way(['lcr-meter'], 'Series resistance at 100 kHz, one leg lifted.'),
    way(
      ['signal-generator', 'oscilloscope'],
      '100 kHz through 50 ohm, voltage left across the capacitor.',
      null,
      true,
    ),
  ],
  inductance: [
    way(['lcr-meter'], 'Series inductance at 10 kHz or more, short leads. Note meter and frequency.'),
    way(
      ['signal-generator', 'oscilloscope'],
      'Resonate with a known film capacitor: L = 1/((2 pi f)² C).',
      null,
      true,
    ),
  ],
  ratio: [
    way(['signal-generator', 'oscilloscope'], '10 kHz sine into the primary, both voltages side by side.'),
    way(
      ['signal-generator', 'multimeter'],
      '1 kHz sine into the primary, both on the AC range of one meter.',
      null,
      true,
    ),
    way(['lcr-meter'], 'Square root of the two inductances.', null, true),
  ],
  sense: [
    way(
      ['signal-generator', 'oscilloscope'],
      'Sine into the primary, its end without dot as reference: does the dotted end of the other winding swing with that of the primary?',
    ),
    way(
      ['multimeter'],
      'Touch a 1.5 V cell for an instant to the primary, plus to its dotted end; the meter on the other winding, red on its dotted end, kicks positive.',
      null,
      true,
    ),
  ],
  quality: [way(['lcr-meter'], 'Quality factor at 100 kHz or the highest frequency the meter has.')],
  knee: [
    way(
      ['pulse-tester'],
      'Single pulses from a charged capacitor at low voltage; the current at which the ramp bends.',
    ),
  ],
  resonance: [
    way(
      ['signal-generator', 'oscilloscope'],
      'Through 10 kΩ, sweep for the greatest voltage, all else open.',
    ),
  ],
  hand: [way([], 'With both hands, nothing connected.')],
  lcrHand: [
    way(
      ['lcr-meter'],
      'Inductance while the halves are pressed together with two fingers, against the reading at rest.',
    ),
  ],
} as const

/** Ways with a bench supply and no mains. */
export const low = {
  feed: [
    way(
      ['bench-supply', 'multimeter'],
      'Mains unplugged, bulk discharged. Bench supply at the output terminals, current limit 0.1 A.',
    ),
  ],
  feedOhms: [
    way(
      ['bench-supply', 'multimeter'],
      'Bench supply at the output as before; ohms range across the transistor of the optocoupler, red on its collector.',
    ),
  ],
} as const

/** Ways with mains on, on the primary side. */
export const live = {
  volts: [
    way(['multimeter'], 'DC volts, 1000 V range.', floatingMeter),
    way(['oscilloscope', 'differential-probe'], 'DC coupled, mean value.', floatingProbe),
  ],
  waveform: [
    way(['oscilloscope', 'differential-probe'], 'Differential probe at its higher ratio.', floatingProbe),
    way(['oscilloscope', 'isolation-transformer'], '100:1 probe with a short ground spring.', isolated),
  ],
  current: [
    way(
      ['oscilloscope', 'current-probe'],
      'Current probe round a short loop of insulated wire in the drain lead.',
      'The probe touches insulation alone: it is its own isolation. Close it round the loop while discharged.',
    ),
  ],
  eye: [
    way(
      [],
      'By eye and ear, from an arm away, behind a screen.',
      'Nothing is connected and nothing is touched.',
    ),
  ],
  lamp: [
    way(
      ['lamp'],
      'Watch the lamp from switch-on.',
      'Nothing is connected but the lamp in its insulated holder.',
    ),
  ],
  watts: [
    way(
      ['wattmeter'],
      'At the plug, after half a minute.',
      'Plugs in between wall and supply; nothing is opened.',
    ),
    way(
      ['multimeter'],
      'AC current in one mains lead through an insulated adapter; times mains volts and the power factor of the plan.',
      'Adapter wired and closed while unplugged; meter fused and rated for mains.',
      true,
    ),
  ],
  heat: [
    way(['thermal-camera'], 'Matt surfaces, from a distance.', 'Nothing touches the supply.'),
    way(
      ['thermocouple'],
      'Insulated tip taped on while discharged, meter on batteries.',
      'Insulated tip and battery meter, both rated for mains; fixed before power, not moved after.',
    ),
    way(
      ['infrared-thermometer'],
      'From a few centimetres, at a matt patch.',
      'Nothing touches the supply; keep the distance that the voltage asks.',
    ),
  ],
  copperHeat: [
    way(
      ['multimeter'],
      'Unplug, discharge, read the primary resistance within half a minute: copper gains 0.39 % a kelvin.',
      'Unplugged and discharged for the reading.',
      true,
    ),
  ],
  touch: [
    way(
      ['multimeter'],
      'AC current from the output return to earth through 2 kΩ, mains polarity both ways round.',
      'One hand, 2 kΩ resistor and meter fixed before power; no part of the primary is touched.',
    ),
  ],
  swap: [
    way(
      [],
      'Unplug, discharge, change the one thing, start again through the lamp.',
      'Unplugged and discharged while it is changed.',
    ),
  ],
} as const

/** Ways with mains on, on the output side. */
export const output = {
  volts: [way(['multimeter'], 'DC volts at the output terminals.', outputSide)],
  loadedVolts: [
    way(['multimeter', 'load-resistors'], 'DC volts at the output terminals, load resistors on.', outputSide),
    way(
      ['multimeter', 'electronic-load'],
      'DC volts at the output terminals, load in resistance mode.',
      outputSide,
    ),
  ],
  loadedWatts: [
    way(
      ['wattmeter', 'load-resistors'],
      'At the plug, after half a minute.',
      'Plugs in between wall and supply; nothing is opened.',
    ),
    way(
      ['wattmeter', 'electronic-load'],
      'At the plug, after half a minute.',
      'Plugs in between wall and supply; nothing is opened.',
    ),
  ],
  ripple: [
    way(
      ['oscilloscope'],
      'AC coupled, 20 MHz limit, tip and ground spring across the output capacitor.',
      'Output side only. The scope earths the output return: the output must be free of any other earth.',
    ),
    way(
      ['multimeter'],
      'AC millivolts at the output: the rms of what the meter can follow.',
      outputSide,
      true,
    ),
  ],
  ceiling: [
    way(
      ['multimeter', 'electronic-load'],
      'Raise the load until the voltage leaves its band, then back.',
      outputSide,
    ),
    way(
      ['multimeter', 'load-resistors'],
      'Add resistors until the voltage leaves its band, then back.',
      outputSide,
    ),
  ],
  eye: [way([], 'By eye and ear.', 'Nothing is touched.')],
} as const
