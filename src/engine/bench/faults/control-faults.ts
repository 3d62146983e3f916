import { dividedOutput_V } from '../../supply/resolve/feedback.ts'
import type { Unit } from '../unit/unit.ts'
import { withDesign, withParts } from '../unit/unit.ts'
import { answer, fault, ofParts, times } from './definition.ts'

/** Another lower divider resistor, with the output that it sets. */
function lowerArm(u: Unit, factor: number): Unit {
  const f = u.design.feedback
  const { reference, trimmer } = u.design.parts
  const bottom_ohm = factor * f.dividerBottom_ohm
  const output_V = dividedOutput_V(
    reference.voltage_V.typical,
    f.dividerTop_ohm,
    bottom_ohm + (trimmer?.resistance_ohm ?? 0) / 2,
    reference.inputCurrent_A,
  )
  return withOutput(withDesign(u, { feedback: { ...f, dividerBottom_ohm: bottom_ohm } }), output_V)
}

/** The unit as it runs at another output voltage: bias and reflected voltage follow the turns. */
function withOutput(u: Unit, output_V: number): Unit {
  const ratio = output_V / u.design.need.output_V
  return withDesign(u, {
    need: { ...u.design.need, output_V },
    biasVoltage_V: u.design.biasVoltage_V * ratio,
  })
}

const runsAway = 'The output runs away: capacitors vent, loads die. Never open the loop on mains to test it.'

/** Faults of feedback, loop, sound and heat, and what only looks like a fault. */
export const controlFaults = [
  fault({
    id: 'led-open',
    title: 'Feedback open: LED of the optocoupler, its resistor or a joint',
    change: (u) => withParts(u, { led: 'open' }),
    varies: { 'lamp.output': 0.25 },
    telling: 'Fed above the set voltage, no current flows in the LED.',
    remedy: 'Resolder or replace.',
    danger: runsAway,
  }),
  fault({
    id: 'reference-open',
    title: 'Feedback open: reference dead or its joint open',
    weight: 0.8,
    change: (u) => withParts(u, { reference: 'open' }),
    varies: { 'lamp.output': 0.25 },
    telling: 'LED tests well, yet stays dark above the set voltage.',
    remedy: 'Replace the reference; check its pins, makers differ.',
    danger: runsAway,
  }),
  fault({
    id: 'optocoupler-dead',
    title: 'Feedback open: transistor of the optocoupler',
    weight: 0.8,
    change: (u) => withParts(u, { transistor: 'open' }),
    varies: { 'lamp.output': 0.25 },
    telling: 'Fed above the set voltage the LED lights, the transistor stays dark.',
    remedy: 'Replace it, or turn it round.',
    danger: runsAway,
  }),
  fault({
    id: 'optocoupler-reversed',
    title: 'Optocoupler turned round',
    change: (u) => withParts(u, { led: 'reversed', transistor: 'open' }),
    varies: { 'lamp.output': 0.25 },
    telling: 'Diode test finds the LED the other way round.',
    remedy: 'Turn it: pin 1 at the dot.',
    danger: runsAway,
  }),
  fault({
    id: 'divider-open',
    title: 'Feedback open: upper divider resistor',
    weight: 0.6,
    change: (u) => withParts(u, { dividerTop: 'open' }),
    varies: { 'lamp.output': 0.25 },
    telling: 'Output plus to the reference input reads open.',
    remedy: 'Resolder or replace.',
    danger: runsAway,
  }),
  fault({
    id: 'feedback-stuck',
    title: 'Feedback stuck on: transistor of the optocoupler shorted',
    weight: 0.8,
    change: (u) => withParts(u, { transistor: 'short' }),
    telling: 'Low resistance across the transistor with everything off; no pulses with mains.',
    remedy: 'Replace it; look for a bridge of solder.',
  }),
  fault({
    id: 'reference-shorted',
    title: 'Feedback stuck on: reference shorted or its cathode held low',
    weight: 0.7,
    change: (u) => withParts(u, { reference: 'short' }),
    known: { 'cold.led': times(1, 0.1) },
    telling: 'The LED comes on far below the set voltage when the output is fed.',
    remedy: 'Replace the reference; check its pins.',
  }),
  fault({
    id: 'divider-wrong',
    title: 'Divider wrong: lower resistor too low, output high',
    change: (u) => lowerArm(u, 0.78),
    varies: Object.fromEntries(
      ['lamp.output', 'low.lights-at', 'cold.divider-bottom', 'low.reference-volts'].map((k) => [k, 0.06]),
    ),
    telling:
      'Steady at a wrong voltage with the same error at all loads; the reference input is off at the set voltage.',
    remedy: 'The planned resistors.',
    danger: 'Output above its rating.',
  }),
  fault({
    id: 'divider-wrong-low',
    title: 'Divider wrong: lower resistor too high, output low',
    weight: 0.8,
    change: (u) => lowerArm(u, 1.28),
    varies: Object.fromEntries(
      ['lamp.output', 'low.lights-at', 'cold.divider-bottom', 'low.reference-volts'].map((k) => [k, 0.06]),
    ),
    telling: 'Steady at a wrong voltage with the same error at all loads.',
    remedy: 'The planned resistors.',
  }),
  fault({
    id: 'reference-wrong',
    title: 'Reference of another voltage',
    weight: 0.6,
    change: (u) => {
      const scale = u.design.parts.reference.voltage_V.typical > 2 ? 0.496 : 2.0161
      const changed = ofParts(u, (p) => ({
        reference: {
          ...p.reference,
          voltage_V: {
            minimum: scale * p.reference.voltage_V.minimum,
            typical: scale * p.reference.voltage_V.typical,
            maximum: scale * p.reference.voltage_V.maximum,
          },
        },
      }))
      return withOutput(changed, scale * u.design.need.output_V)
    },
    varies: { 'lamp.output': 0.05, 'low.lights-at': 0.03 },
    telling: 'Output off by the ratio of two reference voltages, divider right.',
    remedy: 'The planned reference.',
  }),
  fault({
    id: 'reference-starved',
    title: 'Reference starved or without headroom',
    weight: 0.8,
    change: (u) => ({ ...u, starved: true }),
    known: {
      'cold.bias-resistor': times(6, 0.6),
      'soak.output-drift': answer('creeps', 0.85),
      'line-0.output': times(1.03, 0.03),
      'line-100.output': times(0.95, 0.04),
    },
    varies: { 'low.span': 0.5, 'low.cathode-current': 0.4 },
    telling: 'Switch-over spread over volts, output creeps with load and heat.',
    remedy: 'A lower resistor across the LED; a reference of lower voltage.',
  }),
  fault({
    id: 'transfer-ratio',
    title: 'Transfer ratio of the optocoupler too low, or another pin-out',
    weight: 0.8,
    change: (u) => ({ ...u, transferRatio: 0.25 * u.transferRatio }),
    known: {
      'lamp.output': times(1.08, 0.06),
      'line-0.output': times(1.08, 0.06),
      'soak.output-drift': answer('creeps', 0.5),
    },
    varies: { 'low.transfer': 0.35, 'low.opto-lit': 0.4 },
    telling:
      'Output high without load, LED resistor at its greatest current; pin current over LED current is low.',
    remedy: 'The planned class, or a lower LED resistor.',
  }),
  fault({
    id: 'loop-unstable',
    title: 'Loop unstable: compensation missing or wrong',
    change: (u) => u,
    known: {
      'line.slow-output': answer('kHz sine', 0.9),
      'line.sound': answer('hum', 0.7),
      'line-100.ripple-line': times(6, 0.6),
      'line.preload': answer('same', 0.7),
    },
    telling: 'A sine of some kilohertz at the output, not tied to mains and not in groups.',
    remedy: 'Fit the planned compensation; see the loop page.',
  }),
  fault({
    id: 'subharmonic',
    title: 'Pulses alternate wide and narrow: duty above one half without slope',
    weight: 0.5,
    known: { 'line.low-line': answer('hisses', 0.9), 'line.sound': answer('hiss heavy', 0.85) },
    telling: 'At half the frequency, gone when the input is raised.',
    remedy: 'Lower reflected voltage, more slope, or less ripple-free current.',
  }),
  fault({
    id: 'burst-normal',
    title: 'No fault: skips pulses at light load',
    weight: 1.2,
    known: {
      'line.sound': answer('chirp light', 0.9),
      'line-0.burst': answer('groups', 0.9),
      'line.preload': answer('quiets it', 0.85),
      'line.slow-output': answer('groups', 0.7),
    },
    telling: 'Stops with 10 to 20 % of load; regulation stays.',
    remedy: 'None needed: varnish the core, film instead of ceramic in the clamp, or a preload.',
  }),
  fault({
    id: 'bulk-small',
    title: 'Bulk capacitor too small or dried out',
    change: (u) => {
      const c = u.design.bulkCapacitance_F
      return withDesign(u, {
        bulkCapacitance_F: {
          minimum: 0.35 * c.minimum,
          typical: 0.35 * c.typical,
          maximum: 0.35 * c.maximum,
        },
      })
    },
    known: {
      'line.slow-output': answer('mains ripple', 0.8),
      'line.low-line': answer('drops', 0.9),
      'line-100.ripple-line': times(6, 0.6),
    },
    varies: { 'cold.bulk-capacitance': 0.4, 'line-100.bulk-ripple': 0.3 },
    telling: 'Ripple at twice the mains frequency, only when loaded and at low input.',
    remedy: 'A new capacitor of the planned value.',
  }),
  fault({
    id: 'output-esr',
    title: 'Output capacitor of high resistance',
    change: (u) =>
      ofParts(u, (p) => ({
        outputCapacitor: { ...p.outputCapacitor, resistance_ohm: 5 * p.outputCapacitor.resistance_ohm },
      })),
    known: { 'line.slow-output': answer('fuzzy', 0.8), 'line.capacitor-swap': answer('better', 0.9) },
    varies: { 'cold.output-esr': 0.3, 'line-100.ripple': 0.3 },
    telling:
      'The step of the ripple over the secondary peak is the resistance; a good capacitor laid across halves it.',
    remedy: 'Low-resistance types, or more in parallel.',
  }),
  fault({
    id: 'rectifier-hot',
    title: 'Rectifier overheats: too small, slow, or rings in reverse',
    weight: 0.8,
    change: (u) =>
      ofParts(u, (p) => ({
        rectifier: { ...p.rectifier, drop_V: 1.9 * p.rectifier.drop_V, slope_ohm: 2 * p.rectifier.slope_ohm },
        rectifierPad: null,
      })),
    known: { 'line-100.rectifier-ring': answer('high', 0.6), 'soak.rectifier-C': times(2.1, 0.25) },
    telling: 'Hot at light load and high input means reverse ring; hot only loaded means conduction.',
    remedy: 'Larger or faster type, more copper or heatsink, snubber.',
  }),
  fault({
    id: 'switcher-hot',
    title: 'Switcher overheats: poor contact to its heatsink, or switching loss',
    weight: 0.9,
    change: (u) =>
      ofParts(u, (p) => ({
        switcher: {
          ...p.switcher,
          onResistance25_ohm: 2.2 * p.switcher.onResistance25_ohm,
          onResistance100_ohm: 2.2 * p.switcher.onResistance100_ohm,
        },
      })),
    known: { 'line-100.switcher-C': times(1.9, 0.25), 'soak.switcher-C': times(1.9, 0.2) },
    telling: 'Hot without load means capacitance; hot only loaded means conduction or contact.',
    remedy: 'Flat contact, fresh pad, larger heatsink.',
  }),
  fault({
    id: 'control-noise',
    title: 'Control pin picks up noise from the layout',
    weight: 0.7,
    known: { 'line.hand': answer('upsets', 0.92), 'line.restart': answer('fast', 0.7) },
    telling: 'A hand or probe near the control pin changes what happens.',
    remedy: 'Bypass at the pin, a short return of its own, away from the drain.',
  }),
  fault({
    id: 'artefact',
    title: 'No fault: the picture comes from the probe',
    weight: 0.8,
    known: { 'line.probe': answer('still there', 0.95), 'line-100.ripple': times(3.5, 0.5) },
    telling: 'The probe shorted to its own ground at the node still shows it.',
    remedy: 'Short ground spring instead of the clip lead; right range.',
  }),
  fault({
    id: 'thermal-cycle',
    title: 'Thermal shutdown comes and goes',
    weight: 0.8,
    change: (u) => ofParts(u, () => ({ switcherHeatsink: null })),
    known: {
      'soak.cycle': answer('slow', 0.92),
      'line.restart': answer('none', 0.7),
      'soak.switcher-C': times(2.4, 0.25),
    },
    varies: { 'line-100.switcher-C': 0.3 },
    telling: 'Off for seconds to minutes and tied to heat, not to the restart clock.',
    remedy: 'Better cooling, or less loss.',
  }),
] as const
