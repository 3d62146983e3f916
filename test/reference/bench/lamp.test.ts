import { expect, test } from 'vitest'
import { chooseLamp, holdsThrough, takeOverLoad } from '../../../src/engine/bench/plan/lamp-forecast.ts'
import { benchOf } from '../../../src/engine/bench/unit/at-load.ts'
import { lampBalance, runThroughLamp } from '../../../src/engine/bench/unit/lamp-run.ts'
import { lampModel } from '../../../src/engine/mains/lamp.ts'
import { judged, lamps } from './supplies.ts'

const { design } = judged().evaluation
const bench = benchOf(design)

/** The solver in time is the reference for the balance of means over a period; flicker of the filament is left out. */
test('balance of filament and bulk agrees with the run in time', () => {
  const lamp = lampModel(60, 230)
  for (const load of [0.1, 0.3, 0.45]) {
    const stage_W = bench.at('nominal', load)!.operation.stage_W
    const balance = lampBalance(design, lamp, stage_W)!
    const run = runThroughLamp(design, { kind: 'regulates', output_V: 12 }, stage_W, lamp, 6)!
    // Filament within 6 %, bulk within 3 %: the filament follows each charging pulse by some tens of kelvin.
    expect(Math.abs(run.end_K / balance.filament_K - 1)).toBeLessThan(0.06)
    expect(Math.abs(run.bulk_V / balance.bulk.average_V - 1)).toBeLessThan(0.03)
  }
})

test('the load at which the lamp takes over is where the run in time collapses', () => {
  const lamp = lampModel(40, 230)
  const edge = takeOverLoad(design, bench, lamp)
  expect(edge).toBeGreaterThan(0.2)
  expect(edge).toBeLessThan(0.9)
  const least = (load: number): number => {
    const stage_W = bench.at('nominal', load)!.operation.stage_W
    return runThroughLamp(design, { kind: 'regulates', output_V: 12 }, stage_W, lamp, 5)!.bulkLow_V
  }
  expect(least(0.85 * edge)).toBeGreaterThan(120)
  expect(least(1.25 * edge)).toBeLessThan(60)
})

test('a larger lamp takes over later', () => {
  const loads = [25, 40, 60, 100].map((w) => takeOverLoad(design, bench, lampModel(w, 230)))
  for (let k = 1; k < loads.length; k++) expect(loads[k]!).toBeGreaterThanOrEqual(loads[k - 1]!)
  expect(holdsThrough(design, bench, lampModel(100, 230), 1)).toBe(true)
})

test('40 to 60 W is chosen, of the right voltage; without one it says so', () => {
  const choice = chooseLamp(design, lamps, 4.5)
  expect(choice.power_W).toBeGreaterThanOrEqual(40)
  expect(choice.power_W).toBeLessThanOrEqual(60)
  expect(choice.voltage_V).toBe(230)
  expect(choice.atHand).toBe(true)
  const only100 = chooseLamp(
    design,
    lamps.filter((l) => l.power_W === 100),
    4.5,
  )
  expect(only100.power_W).toBe(100)
  expect(only100.reason).toContain('nearest at hand')
  expect(chooseLamp(design, [], 4.5).atHand).toBe(false)
})

/** What the trade says of a series lamp: steady bright is a short, a flash that dies is well, pulsing is a restart. */
test('a short glows bright, a healthy board flashes, an open input stays dark', () => {
  const lamp = lampModel(60, 230)
  expect(runThroughLamp(design, { kind: 'shorted' }, 0, lamp)!.look).toBe('bright')
  expect(runThroughLamp(design, { kind: 'dead' }, 0, lamp)!.look).toBe('dark')
  expect(runThroughLamp(design, { kind: 'regulates', output_V: 12 }, 1.4, lamp)!.look).toBe('flash')
  const restart = {
    kind: 'hiccup',
    output_V: 0,
    bias_V: 8,
    clamp_V: 0,
    try_W: 45,
    biasMotion: 'steady',
  } as const
  // Tries of 40 ms take 1.8 J, which barely warms a 60 W filament; tries of 0.2 s make it pulse.
  expect(runThroughLamp(design, restart, 0, lamp)!.look).toBe('flash')
  const { switcher } = design.parts
  const slow = { ...design, parts: { ...design.parts, switcher: { ...switcher, restartTry_s: 0.2 } } }
  expect(runThroughLamp(slow, restart, 0, lamp)!.look).toBe('pulses')
})
