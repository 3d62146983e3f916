import type { loadSteps } from '../unit/running-readings.ts'
import { type CheckSpec, number, outputSpread } from './spec.ts'
import { live, output } from './ways.ts'

/** What the leakage spike may add to the bias voltage at full load, of itself: circuits of such stages, solved. */
const biasSpike = 0.45

/** Least part of the input power that a plug-in wattmeter resolves, W. */
const wattFloor = 0.15

/** What is read at every load alike: output, input power, bias and clamp. */
export function loadStepChecks(percent: (typeof loadSteps)[number]): readonly CheckSpec[] {
  const id = (name: string) => `line-${percent}.${name}`
  const loadName = percent === 0 ? 'no load' : `${percent} % load`
  const loaded = percent > 0
  return [
    number(id('output'), `Output voltage, ${loadName}`, 'V', outputSpread, 0.05, {
      spot: 'output',
      side: 'secondary',
      live: true,
      at: 'output plus',
      reference: 'output minus',
      ways: loaded ? output.loadedVolts : output.volts,
      risk: 'Regulation at this load stays unproven.',
      low: 'Power ceiling, starved bias, divider.',
      high: 'Feedback or divider: off.',
      why: 'reference, 1 % divider, wiring',
      stop: ({ evaluation: { design } }) => ({
        below: 0.9 * design.need.output_V,
        above: 1.1 * design.need.output_V,
        text: '10 % off either way: off.',
      }),
    }),
    number(id('input'), `Input power, ${loadName}`, 'W', percent === 0 ? 0.2 : 0.06, wattFloor, {
      spot: 'input',
      side: 'mains',
      live: true,
      ways: loaded ? [...output.loadedWatts, live.watts[1]] : live.watts,
      risk: 'Losses show only as heat.',
      low: 'Less than planned: check the load and the meter.',
      high: 'Something burns the difference: find what is hot.',
      why: 'losses ±25 %',
      stop: (f) => {
        const typical = Number(f.healthy[id('input')] ?? 0)
        const more_W = Math.max(1, 0.3 * typical)
        return { below: null, above: typical + more_W, text: 'Far above plan: off, find what is hot.' }
      },
    }),
    number(id('bias'), `Bias voltage, ${loadName}`, 'V', 0.06 + biasSpike * (percent / 100), 0.3, {
      spot: 'biasCapacitor',
      live: true,
      at: 'C5 plus',
      reference: 'C5 minus, primary return',
      ways: live.volts,
      risk: 'A chip near the end of its bias range is not noticed.',
      low: 'Bias winding or diode.',
      high: 'Coupling to the spike: add a resistor in series with the bias diode.',
      why: 'whole turns, coupling ±12 %; the leakage spike charges it higher, the more load',
      onlyInTrouble: percent !== 0 && percent !== 100,
    }),
    number(id('clamp'), `Clamp capacitor, ${loadName}`, 'V', 0.1, 3, {
      spot: 'clampCapacitor',
      live: true,
      at: 'D1 cathode',
      reference: 'C2 plus',
      ways: live.volts,
      risk: 'Leakage and clamp stay unproven at this load.',
      low: 'Clamp resistor low, clamp open.',
      high: 'Leakage above plan or clamp resistor high.',
      why: 'leakage 0.7 to 1.5 of the estimate',
      applies: ({ evaluation }) => evaluation.design.clamp.style === 'resistor-capacitor',
      onlyInTrouble: percent === 10 || percent === 90,
      stop: ({ evaluation }) => ({
        below: null,
        above: 1.6 * evaluation.design.clamp.voltage_V,
        text: 'Far above the planned clamp voltage: off.',
      }),
    }),
  ]
}
