/** Words of the view of the loop. */
export const loopStrings = {
  title: 'Loop: does it regulate without singing',
  worst: (margin: string, where: string) => `${margin} of phase margin at the worst corner: ${where}.`,
  sings: (where: string) => `It oscillates at its worst corner: ${where}.`,
  span: (corners: number, low: string, high: string) =>
    `Over ${corners} corners it crosses over between ${low} and ${high}.`,
  gainRoom: (room: string, where: string) => `Least gain margin ${room}, at ${where}.`,
  noCorners: 'The supply runs at no load at which its loop could be judged.',
  restsHere:
    'The loop is not judged here: the supply skips pulses, has no load, is at its limit or does not run.',
  skips: (where: string) =>
    `Pulses are skipped at ${where}: bursts and a little more ripple are normal there, and so is a faint sound.`,
  bandMeans:
    'Line: the condition chosen, typical parts. Band: all corners of mains, load, heat, age and optocoupler.',
  beforeMeans: 'Dashed: before the last change.',
  plot: (margin: string, crossover: string) => `Gain and phase of the loop: ${margin} at ${crossover}`,
  plotPlain: 'Gain and phase of the loop',
  gain: 'Gain, dB',
  phase: 'Phase',
  margin: (margin: string, crossover: string) => `${margin} at ${crossover}`,
  gainMargin: (room: string) => room,
  degrees: (value: string) => `${value}°`,
  decibels: (value: string) => `${value} dB`,
  network: {
    title: 'Network round the reference',
    lead: 'Move a part along its preferred values and watch the curve.',
    parts: {
      ledResistor_ohm: 'LED resistor',
      compensationResistor_ohm: 'Compensation resistor',
      compensationCapacitor_F: 'Compensation capacitor',
      highFrequencyCapacitor_F: 'High-frequency capacitor',
      softFinishCapacitor_F: 'Soft-finish capacitor',
    },
    none: 'none',
    bracket: (low: string, high: string) => `${low} to ${high} keeps optocoupler and reference in range`,
    outside: 'outside its bracket',
    suggest: 'Suggest values',
    suggestMeans: 'Looks through preferred values at every corner, the LED resistor among them.',
    crossover: 'Crossover wanted',
    margin: 'Phase margin wanted',
    aims: 'A crossover from 1 Hz to 1 MHz and a phase margin from 5 to 90°.',
    free: 'Let the tool choose',
    use: 'Use these',
    suggested: (margin: string, crossover: string) =>
      `${margin} at the worst corner, crossover near ${crossover}:`,
    noBetter: (then: string, now: string) =>
      `No network found is better than the present one: the best leaves ${then} at the worst corner, the present one ${now}.`,
    helps: 'What would help instead:',
    remedies: (voltageMode: boolean) => [
      ...(voltageMode
        ? ['a chip with peak-current control, whose filter turns the phase half as far']
        : ['less primary inductance, which moves the right-half-plane zero up']),
      'a lower crossover wanted, at the price of slower load steps and more ripple at twice the mains frequency',
      'more output capacitance',
      'an optocoupler with less spread of its transfer ratio',
      ...(voltageMode ? ['a larger gap, so that the current is discontinuous at every load'] : []),
    ],
    step: (what: string) => `${what} moved`,
    taken: 'Suggested network',
    freed: 'Network left to the tool',
  },
  proof: {
    title: 'Proof by the switched circuit',
    act: 'Prove it',
    again: 'Prove it again',
    lead: 'Adds small sines to the control input of the exact switched circuit, closed loop, and reads gain and phase off it.',
    runs: 'Switching the circuit',
    agrees: (count: number, gain: string, phase: string, time: string) =>
      `${count} points, switched in ${time}. Below a tenth of the switching frequency they lie within ${gain} and ${phase} of the curve.`,
    crossover: (switched: string, model: string, margin: string) =>
      `Crossover ${switched} switched, ${model} computed; phase margin ${margin} apart.`,
    unstable: 'The computed loop oscillates here: there is no rest to perturb.',
    failed: (why: string) => `The switched circuit gave no answer: ${why}.`,
    stale: 'Of an earlier state.',
  },
  steps: {
    title: 'After a step',
    load: 'Load, half to full',
    mains: 'Bulk voltage, one tenth up',
    says: (peak: string, time: string) => `${peak} at most, settled after ${time}.`,
    rings: (frequency: string, damping: string) => `Rings at ${frequency}, damping ${damping}.`,
    lead: 'Linear model; thin line: the switched circuit, where it was proved. On the bench: switch half the load with a transistor or a relay at 50 Hz and trigger on it.',
    none: (why: string) => `No response: ${why}.`,
    title_: (what: string) => `Output after a step: ${what}`,
  },
  ripple: {
    title: 'Ripple by frequency',
    plot: 'Ripple at both output capacitors by frequency, peak to peak',
    heading: 'V peak to peak; open: first capacitor, filled: load',
    allowed: 'allowed',
    says: (all: string, switching: string, mains: string) =>
      `${all} peak to peak at the load: ${switching} switching, ${mains} of twice the mains frequency. Spikes at the edges come on top.`,
    charging: 'This feeds a battery: ripple matters little to it, and no limit is set on it.',
    remedy: 'What would change it',
    remedies: {
      'another capacitor': 'One more first capacitor',
      'more choke': 'Twice the choke inductance',
      'choke and capacitor': 'A choke of 4.7 µH and 220 µF behind it',
      ceramic: '22 µF of ceramic (as biased) at the load',
    },
    atLoad: 'Switching ripple at the load',
  },
  trim: {
    title: 'Trim and tolerance',
    rows: {
      range: 'Trimmer, end to end',
      certain: 'Reached for certain, all tolerances',
      asked: 'Asked for',
      worst: 'Once trimmed, over 50 K of warmth',
      worstFixed: 'Output over all tolerances',
      sensitivity: '1 % of a divider resistor moves the output by',
    },
    noTrimmer: 'No trimmer: the divider alone sets the output.',
  },
  bias: {
    title: 'LED, reference and what the bench must show',
    lead: (led: string, low: string, high: string, headroom: string) =>
      `LED resistor ${led}, to lie between ${low} and ${high}; ${headroom} of headroom is left for it. Far below its test current an optocoupler passes on a smaller share: the ratios are those at the LED currents here, from full power to none. Readings show the LED current of the first row's optocoupler at each condition.`,
    with: 'Optocoupler',
    ratio: 'Ratio there',
    noPower: 'LED, no power',
    fullPower: 'LED, full power',
    cathode: 'Reference, least',
    holds: 'holds',
    short: 'out of range',
    backFeed: (dark: string, lit: string, amps: string) =>
      `Back-feed test, mains off and unplugged, bulk discharged: feed the output from a bench supply with its current limited. Below ${dark} the LED stays dark; above ${lit} it is fully on with ${amps}.`,
  },
  ringing: {
    title: 'Seen on the scope',
    lead: 'Step the load and count the swings until they are a twentieth of the first.',
    frequency: 'Ringing at',
    cycles: 'Cycles counted',
    says: (low: string, high: string) => `Phase margin about ${low} to ${high}.`,
    expects: (margin: string, crossover: string) =>
      `The model says ${margin} at ${crossover} for the condition chosen.`,
    far: 'The ringing is far from the computed crossover: suspect something else than this loop, such as an input filter, a worn capacitor or pick-up on the control pin.',
    needs: 'A frequency such as 5 kHz, and cycles from 0.1 to 200.',
  },
} as const
