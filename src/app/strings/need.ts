import type { Explanation } from '../controls/explain.tsx'

/** Words of the need: what is asked of the supply. */
export const needStrings = {
  title: 'Need',
  parts: { input: 'In', output: 'Out', place: 'Where it lives', record: 'Record' },
  source: 'Source',
  sourceKinds: { mains: 'AC mains', dc: 'DC bus' },
  labels: {
    mains: 'Mains range',
    dc: 'Bus range',
    nominal: 'Nominal',
    frequency: 'Frequency',
    output_V: 'Output voltage',
    trim: 'Trim range',
    output_A: 'Output current',
    ripple_Vpp: 'Ripple allowed',
    holdUp_s: 'Hold-up',
    feeds: 'It feeds',
    outputEarthed: 'Output earthed',
    ambient_C: 'Air around it',
    cooling: 'Cooling',
    insulation: 'Insulation',
    pollutionDegree: 'Pollution',
    altitude_m: 'Altitude',
    revision: 'Revision',
    note: 'Note',
  },
  cooling: { open: 'Open frame', 'case-vented': 'Vented case', 'case-closed': 'Closed case', fan: 'Fan' },
  feeds: { resistive: 'Heater or lamp', electronics: 'Electronics', charging: 'A battery' },
  insulation: { basic: 'Basic', reinforced: 'Reinforced' },
  pollution: { 1: '1, sealed', 2: '2, indoors', 3: '3, damp, dusty' },
  notePlaceholder: 'What it is for, what was changed and why',
  needsRange: (label: string, text: string) => `${label}: ${text} is no range such as 85-265 V`,
  help: {
    range: {
      what: 'Lowest and highest voltage at which everything must hold: 85-265 V, or 230 V ±6 %. One voltage alone stands for ±10 %, as public mains is kept.',
      why: 'The lowest sets currents and the bulk capacitor, the highest sets what the switch must block.',
      source: 'IEC 60038',
    },
    bus: {
      what: 'Lowest and highest voltage at which everything must hold: 120-375 V, or 325 V ±10 %, or one voltage.',
      why: 'The lowest sets the currents, the highest sets what the switch must block.',
    },
    nominal: {
      what: 'The voltage on most days.',
      why: 'Efficiency and temperatures at half load are read here.',
    },
    frequency: {
      what: 'Mains frequency.',
      why: 'At 50 Hz the bulk capacitor must hold longer between crests.',
      equation: 'Vmin² = Vpk² - 2 P t / C',
    },
    output: {
      what: 'Voltage at the load.',
      why: 'With the rectifier drop it fixes the turns of the secondary.',
    },
    trim: {
      what: 'Lowest and highest voltage that the trimmer must reach; one voltage for none.',
      why: 'Bias, capacitors and rectifier follow the output: each has to take the whole range.',
    },
    current: {
      what: 'Greatest continuous load current.',
      why: 'The power ceiling at the lowest input must stay above it, with every tolerance at its worst.',
    },
    ripple: {
      what: 'Peak-to-peak ripple at the load.',
      why: 'A battery or a heater hardly cares, electronics do: this decides whether a choke is needed.',
    },
    holdUp: {
      what: 'How long the output stays up after the mains goes.',
      why: '10 ms at 50 Hz rides through a missing half cycle. It costs bulk capacitance.',
      equation: 'C = 2 P t / (Vmin² - Vdrop²)',
    },
    feeds: {
      what: 'What hangs on the output.',
      why: 'A battery pulls the output down to its own voltage and asks for the current limit for hours.',
    },
    outputEarthed: {
      what: 'Whether case or load join the output to the mains earth.',
      why: 'A free output passes the touch current of the Y capacitor through whoever touches it: a tingle.',
      equation: 'I = 2 π f C V',
    },
    ambient: {
      what: 'Air temperature next to the supply, inside its case if it has one.',
      why: 'Every temperature is counted up from here.',
    },
    cooling: {
      what: 'How heat leaves.',
      why: 'Still air in a closed case is some 10 to 25 K warmer than the room.',
    },
    insulation: {
      what: 'What separates mains from output.',
      why: 'An output that a person can touch needs reinforced insulation, or earth and basic insulation. Local codes decide.',
    },
    pollution: {
      what: 'Degree of pollution after IEC 60664-1.',
      why: 'Dirt and damp ask for longer paths along surfaces.',
      source: 'IEC 60664-1',
    },
    altitude: {
      what: 'Height above sea level.',
      why: 'Thin air breaks down sooner: clearances grow above 2000 m.',
      source: 'IEC 60664-1',
    },
  } satisfies Record<string, Explanation>,
} as const
