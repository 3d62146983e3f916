import { withDesign, withParts } from '../unit/unit.ts'
import { answer, fault, ofParts, times, value } from './definition.ts'

/** Faults of parts and joints on the board, up to the current limit and the outputs. */
export const boardFaults = [
  fault({
    id: 'rectifier-reversed',
    title: 'Output rectifier reversed',
    change: (u) => withParts(u, { rectifier: 'reversed' }),
    varies: { 'lamp.output': 0.7 },
    telling:
      'Diode test the other way round; a bench supply at the output is drawn down; output near zero or negative.',
    remedy: 'Turn the rectifier; check the output capacitor, it has been reversed too.',
    danger: 'Output capacitor reversed: it may vent.',
  }),
  fault({
    id: 'rectifier-shorted',
    title: 'Output rectifier shorted',
    change: (u) => withParts(u, { rectifier: 'short' }),
    telling: 'Near zero both ways across the rectifier, and across the output through the secondary.',
    remedy: 'Replace it; look for too little reverse voltage rating or a ring.',
  }),
  fault({
    id: 'rectifier-open',
    title: 'Output rectifier open or not connected',
    weight: 0.7,
    change: (u) => withParts(u, { rectifier: 'open' }),
    known: { 'lamp.warm': answer('clamp', 0.8) },
    telling: 'No diode drop forward; all energy ends in the clamp.',
    remedy: 'Resolder or replace it.',
    danger: 'Everything stored goes into the clamp: hot within seconds.',
  }),
  fault({
    id: 'output-capacitor-shorted',
    title: 'Output capacitor or output node shorted',
    weight: 0.7,
    change: (u) => withParts(u, { outputCapacitor: 'short' }),
    telling: 'Output near zero ohm while the rectifier, lifted, is a diode.',
    remedy: 'Find the short with one leg lifted at a time.',
  }),
  fault({
    id: 'load-stubborn',
    title: 'Load pulls full current from zero volts: electronic load in constant current',
    weight: 0.8,
    change: (u) => ({ ...u, stubbornLoad: true }),
    known: {
      'line.start-unloaded': answer('starts only so', 0.85),
      'line.load-type': answer('resistor works', 0.92),
    },
    varies: { 'line-100.output': 0.8, 'lamp-load.output': 0.8, 'cold.output-ohm': 1 },
    telling: 'Runs unloaded, ticks with this load, runs with resistors that draw as much.',
    remedy: 'Set the load to resistance mode, or load it after it has started.',
  }),
  fault({
    id: 'capacitance-start',
    title: 'Too much output capacitance for one try',
    weight: 0.7,
    change: (u) => {
      const { parts, need, supply } = u.design
      const t = u.design.transformer
      const stored_W =
        0.5 *
        t.primaryInductance_H.typical *
        parts.switcher.currentLimit_A.typical ** 2 *
        parts.switcher.frequency_Hz.typical
      const total_F = (2.5 * 2 * 0.8 * stored_W * parts.switcher.restartTry_s) / need.output_V ** 2
      return ofParts(u, (p) => ({
        outputCapacitor: { ...p.outputCapacitor, capacitance_F: total_F / supply.build.outputCount },
      }))
    },
    known: { 'line.start-unloaded': answer('starts only so', 0.9) },
    varies: { 'lamp.output': 0.4, 'line-0.output': 0.4, 'line-100.output': 0.4 },
    telling: 'The output climbs a little further at each try; starts unloaded or with half the capacitance.',
    remedy: 'Less capacitance, or a larger part of it behind the choke; start unloaded.',
  }),
  fault({
    id: 'bulk-shorted',
    title: 'Bridge or bulk capacitor shorted, or the capacitor reversed',
    weight: 0.8,
    change: (u) => withParts(u, { bulk: 'short' }),
    telling: 'Bulk near zero ohm, and still so with the drain lifted.',
    remedy: 'Lift bridge and capacitor one after the other.',
    danger: 'Fuse opens at once without a lamp; a reversed capacitor bursts.',
  }),
  fault({
    id: 'switch-shorted',
    title: 'Switch shorted from drain to source',
    weight: 1.2,
    change: (u) => withParts(u, { drain: 'short' }),
    telling: 'Drain near zero ohm; with it lifted the bulk recovers.',
    remedy: 'Find why it died (clamp, gap, reversed winding) before another is fitted.',
    danger: 'Fuse, thermistor and chip may burst without a lamp.',
  }),
  fault({
    id: 'bulk-open',
    title: 'Bulk capacitor open or not connected',
    weight: 0.6,
    change: (u) => withParts(u, { bulk: 'open' }),
    known: {
      'lamp.glow': answer('glows', 0.5),
      'lamp.clicks': answer('fast', 0.7),
      'line.slow-output': answer('mains ripple', 0.9),
      'line.low-line': answer('drops', 0.9),
      'line-100.bulk-ripple': value(200, 0.4),
      'line-100.ripple-line': times(40, 0.6),
    },
    varies: { 'lamp.bulk': 0.2 },
    telling: 'Bulk reads about two thirds and falls to nothing at each crossing; no capacitance there.',
    remedy: 'Resolder or replace it.',
    danger: 'Drain peak without a stiff bulk.',
  }),
  fault({
    id: 'input-open',
    title: 'Fuse, thermistor or bridge open',
    weight: 0.8,
    change: (u) => withParts(u, { input: 'open' }),
    telling: 'The plug reads open; lamp dark, bulk at zero.',
    remedy: 'Find why it opened before it is replaced.',
  }),
  fault({
    id: 'clamp-diode-reversed',
    title: 'Clamp diode reversed',
    change: (u) => withParts(u, { clampDiode: 'reversed' }),
    known: { 'lamp.warm': answer('clamp', 0.8), 'lamp.glow': answer('pulses', 0.6) },
    telling: 'Diode test the other way round; no flyback voltage can rise.',
    remedy: 'Turn it.',
    danger: 'Clamp resistor burns at once.',
  }),
  fault({
    id: 'clamp-diode-shorted',
    title: 'Clamp diode shorted',
    weight: 0.7,
    change: (u) => withParts(u, { clampDiode: 'short' }),
    known: { 'lamp.warm': answer('clamp', 0.9), 'lamp.glow': answer('pulses', 0.6) },
    telling: 'Near zero both ways across the clamp diode; resistor hot at once.',
    remedy: 'Replace it with an ultrafast diode of enough voltage.',
    danger: 'Clamp resistor burns at once.',
  }),
  fault({
    id: 'clamp-open',
    title: 'Clamp open or missing',
    change: (u) => withParts(u, { clamp: 'open' }),
    varies: { 'line-100.spike': 0.1 },
    telling: 'Clamp capacitor near zero volts, drain peak far above plateau even at low input.',
    remedy: 'Close the clamp path before any more power.',
    danger: 'The switch dies at full line or in overload.',
  }),
  fault({
    id: 'clamp-resistor-low',
    title: 'Clamp resistor too low',
    change: (u) =>
      withDesign(u, { clamp: { ...u.design.clamp, resistor_ohm: 0.35 * u.design.clamp.resistor_ohm } }),
    known: { 'lamp.warm': answer('clamp', 0.85) },
    varies: { 'cold.clamp-ohm': 0.3, 'soak.clamp-C': 0.2 },
    telling: 'Clamp capacitor near the reflected voltage; resistor hot even without load.',
    remedy: 'The planned value.',
  }),
  fault({
    id: 'clamp-diode-slow',
    title: 'Slow diode in the clamp',
    weight: 0.6,
    change: (u) =>
      ofParts(u, (p) => ({ clampDiode: { ...p.clampDiode, technology: 'standard', recovery_s: 2e-6 } })),
    known: {
      'line-100.ringing': answer('high', 0.85),
      'line.clamp-swap': answer('better', 0.9),
      'soak.clamp-C': times(0.9, 0.1),
    },
    telling: 'Leakage is right, yet the clamp diode is hot and the drain rings; an ultrafast diode cures it.',
    remedy: 'An ultrafast diode, or a slow one with the series resistor it was meant to have.',
  }),
  fault({
    id: 'limit-low',
    title: 'Chip with too low a current limit',
    weight: 0.9,
    change: (u) =>
      ofParts(u, (p) => ({
        switcher: {
          ...p.switcher,
          currentLimit_A: {
            minimum: 0.55 * p.switcher.currentLimit_A.minimum,
            typical: 0.55 * p.switcher.currentLimit_A.typical,
            maximum: 0.55 * p.switcher.currentLimit_A.maximum,
          },
        },
      })),
    varies: { 'line.ceiling': 0.3 },
    telling: 'Gives way loaded although the inductance is right; the peak at which it trips is low.',
    remedy: 'The planned chip, or less load.',
  }),
  fault({
    id: 'thermistor-missing',
    title: 'Thermistor missing or bridged, or the fuse too fast',
    weight: 0.8,
    change: (u) => ofParts(u, () => ({ ntc: null })),
    known: { 'line.fuse': answer('opens cold', 0.9) },
    telling: 'Starts through the lamp, opens the fuse at a hard plug-in or a warm restart.',
    remedy: 'Fit the thermistor; a slow fuse with enough melting integral.',
  }),
  fault({
    id: 'source-weak',
    title: 'Source too weak: lamp too small, long lead, small variac',
    weight: 1,
    change: (u) => ({
      ...u,
      weakSource_W: Math.max(1.2, 0.1 * u.design.need.output_V * u.design.need.output_A),
    }),
    known: {
      'lamp.bypass': answer('cures', 0.92),
    },
    varies: { 'lamp-load.output': 0.5, 'lamp-load.bulk': 0.3 },
    telling: 'The bulk sags with each try and recovers between; with the lamp bridged it runs.',
    remedy: 'A larger lamp for the loaded steps.',
  }),
  fault({
    id: 'y-capacitor',
    title: 'Y capacitor missing or of a wrong value',
    weight: 0.5,
    change: (u) => ({ ...u, yCapacitance_F: u.yCapacitance_F > 0.3e-9 ? 0 : 10e-9 }),
    known: { 'line.hand': answer('upsets', 0.3) },
    varies: { 'cold.barrier-capacitance': 0.5, 'line.touch': 0.5 },
    telling: 'Capacitance across the barrier and the current to earth go together.',
    remedy: 'A part of class Y of the planned value, from primary return to output return.',
  }),
] as const
