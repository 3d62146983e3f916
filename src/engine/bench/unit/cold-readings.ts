import { type DcElement, type MeterReading, readMeter } from './dc-network.ts'
import type { Readings } from './readings.ts'
import type { Condition, Unit } from './unit.ts'

/** Diode test of a usual multimeter: about 3 V open, 1 mA into a short. Common practice, no source. */
const diodeTest = { open_V: 3, series_ohm: 3000 } as const
/** Ohms range: too little voltage to turn silicon on. Common practice, no source. */
const ohms = { open_V: 0.12, series_ohm: 1e4 } as const
/** Most that the ohms range shows before it says overload. */
const meterTop_ohm = 4e7
/** Leakage of a formed electrolytic after it has charged from the meter, and of silicon that is off. Typical, no source. */
const capacitorLeak_ohm = 1e6
const off_ohm = 5e7
/** Forward drop at the 1 mA of a diode test; typical, no source. */
const testDrop_V = { schottky: 0.2, ultrafast: 0.48, fast: 0.52, standard: 0.56 } as const
const slope_ohm = 20
const shorted_ohm = 0.05

function diode(anode: string, cathode: string, drop_V: number, state: Condition): DcElement {
  if (state === 'short') return { kind: 'resistor', a: anode, b: cathode, ohm: shorted_ohm }
  if (state === 'open') return { kind: 'resistor', a: anode, b: cathode, ohm: off_ohm }
  return state === 'reversed'
    ? { kind: 'diode', anode: cathode, cathode: anode, drop_V, slope_ohm }
    : { kind: 'diode', anode, cathode, drop_V, slope_ohm }
}

function resistor(a: string, b: string, ohm: number, state: Condition = 'good'): DcElement {
  return {
    kind: 'resistor',
    a,
    b,
    ohm: state === 'short' ? shorted_ohm : state === 'open' ? off_ohm : Math.max(ohm, 1e-3),
  }
}

/** What is unsoldered at one leg for a reading. */
type Lifted = 'nothing' | 'drain' | 'rectifier' | 'biasResistor'

/** The whole board as a meter sees it: no voltage but the meter's own, capacitors charged and out of the way. */
function boardNetwork(unit: Unit, lifted: Lifted = 'nothing'): readonly DcElement[] {
  const { design: d, parts: state } = unit
  const { parts, feedback: f, transformer: t, clamp } = d
  const inputSeries_ohm =
    (parts.fuse?.resistance_ohm ?? 0) +
    (parts.ntc?.cold_ohm ?? 0) +
    (parts.commonModeChoke?.resistance_ohm ?? 0)
  const bridge_V = 0.56
  const drain = lifted === 'drain' ? 'lifted' : 'drain'
  const trimmer_ohm = (parts.trimmer?.resistance_ohm ?? 0) / 2
  const list: DcElement[] = [
    resistor('line', 'bridge', inputSeries_ohm, state.input),
    resistor('bulk', 'return', capacitorLeak_ohm, state.bulk === 'short' ? 'short' : 'good'),
    resistor('bulk', 'drain', t.primaryResistance20_ohm),
    resistor(drain, 'return', off_ohm, state.drain),
    diode('return', drain, 0.5, state.drain === 'short' ? 'open' : 'good'),
    diode('drain', 'clamp', testDrop_V[parts.clampDiode.technology], state.clampDiode),
    resistor('return', 'bias-end', t.biasResistance20_ohm, state.biasWinding),
    diode('bias-end', 'bias', testDrop_V[parts.biasDiode.technology], state.biasDiode),
    resistor('bias', 'return', 3e4),
    resistor('bias', 'control', off_ohm, state.transistor === 'short' ? 'short' : 'good'),
    resistor('control', 'return', 3e4),
    resistor('output-return', lifted === 'rectifier' ? 'winding' : 'anode', t.secondaryResistance20_ohm),
    diode('anode', 'output', testDrop_V[parts.rectifier.technology], state.rectifier),
    resistor(
      'output',
      'output-return',
      capacitorLeak_ohm,
      state.outputCapacitor === 'short' ? 'short' : 'good',
    ),
    resistor('output', 'sense', f.dividerTop_ohm, state.dividerTop),
    resistor('sense', 'output-return', f.dividerBottom_ohm + trimmer_ohm, state.dividerBottom),
    resistor('output', 'led', f.ledResistor_ohm),
    diode('led', 'cathode', 0.95 * parts.optocoupler.ledDrop_V, state.led),
    resistor('led', lifted === 'biasResistor' ? 'lifted-leg' : 'cathode', f.biasResistor_ohm),
    resistor('cathode', 'output-return', off_ohm, state.reference === 'short' ? 'short' : 'good'),
    diode('output-return', 'cathode', 0.6, state.reference === 'short' ? 'open' : 'good'),
  ]
  if (d.need.source.kind === 'mains') {
    const across = state.bridge
    list.push(diode('bridge', 'bulk', bridge_V, across), diode('neutral', 'bulk', bridge_V, 'good'))
    list.push(diode('return', 'bridge', bridge_V, across), diode('return', 'neutral', bridge_V, 'good'))
    if (d.bleed_ohm > 0) list.push(resistor('line', 'neutral', d.bleed_ohm))
  } else list.push(resistor('bridge', 'bulk', 0.01), resistor('neutral', 'return', 0.01))
  if (state.clamp !== 'open')
    list.push(
      resistor('clamp', 'bulk', clamp.style === 'avalanche' ? off_ohm : clamp.resistor_ohm, state.clamp),
    )
  if (unit.stubbornLoad) list.push(resistor('output', 'output-return', 2))
  if (parts.indicator && d.indicatorResistor_ohm > 0)
    list.push(
      resistor('output', 'indicator', d.indicatorResistor_ohm),
      diode('indicator', 'output-return', 0.92 * parts.indicator.drop_V, 'good'),
    )
  return list
}

/** What a multimeter reads on the finished board, unpowered and discharged. */
export function coldReadings(unit: Unit): Readings {
  const board = boardNetwork(unit)
  const ohm = (red: string, black: string, on = board): number | null => {
    const r = readMeter(on, { red, black, ...ohms })
    return r.ok ? resistanceOf(r) : null
  }
  const volts = (red: string, black: string, on = board): number | null => {
    const r = readMeter(on, { red, black, ...diodeTest })
    return r.ok ? r.across_V : null
  }
  const { design: d } = unit
  const rectifierLifted = boardNetwork(unit, 'rectifier')
  const ledFree = boardNetwork(unit, 'biasResistor')
  return {
    'cold.input-ohm': ohm('line', 'bridge'),
    'cold.bulk-ohm': ohm('bulk', 'return'),
    'cold.bulk-diode': volts('return', 'bulk'),
    'cold.bulk-ohm-lifted': ohm('bulk', 'return', boardNetwork(unit, 'drain')),
    'cold.drain-ohm': ohm('drain', 'return'),
    'cold.clamp-diode': volts('drain', 'clamp'),
    'cold.clamp-diode-reverse': volts('clamp', 'drain'),
    'cold.clamp-ohm': d.clamp.style === 'avalanche' ? null : ohm('clamp', 'bulk'),
    'cold.bias-diode': volts('bias-end', 'bias'),
    'cold.bias-winding': ohm('bias-end', 'return'),
    'cold.rectifier-forward': volts('anode', 'output'),
    'cold.rectifier-reverse': volts('output', 'anode'),
    'cold.rectifier-lifted': volts('anode', 'output', rectifierLifted),
    'cold.output-ohm': ohm('output', 'output-return'),
    'cold.led': volts('led', 'cathode'),
    'cold.led-lifted': volts('led', 'cathode', ledFree),
    'cold.led-lifted-reverse': volts('cathode', 'led', ledFree),
    'cold.opto-ohm': ohm('bias', 'control'),
    'cold.divider-top': ohm('output', 'sense'),
    'cold.divider-bottom': ohm('sense', 'output-return'),
    'cold.bias-resistor': ohm('led', 'cathode'),
    'cold.barrier-ohm': Math.min(unit.barrier_ohm, 2e9),
    'cold.barrier-capacitance': unit.yCapacitance_F + 60e-12 * unit.capacitanceFactor,
    'cold.bulk-capacitance': unit.parts.bulk === 'open' ? 1e-9 : d.bulkCapacitance_F.typical,
    'cold.output-esr': d.parts.outputCapacitor.resistance_ohm / d.supply.build.outputCount,
  }
}

const resistanceOf = (r: MeterReading): number =>
  r.current_A <= 0 ? meterTop_ohm : Math.min(meterTop_ohm, Math.max(0, r.across_V / r.current_A))
