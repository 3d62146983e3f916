import { describe, expect, it } from 'vitest'
import { needFromFlags } from './need-flags.ts'

const sentence = (flags: Parameters<typeof needFromFlags>[0]): string => {
  try {
    needFromFlags(flags)
  } catch (error) {
    return (error as Error).message
  }
  throw new Error('was read')
}

describe('a need from flags', () => {
  it('fills in what is usual', () => {
    expect(needFromFlags({ volts: '24', amps: '3' })).toEqual({
      source: { kind: 'mains', minimum_Vrms: 195, nominal_Vrms: 230, maximum_Vrms: 265, frequency_Hz: 50 },
      output_V: 24,
      trimLow_V: 24,
      trimHigh_V: 24,
      output_A: 3,
      ripple_Vpp: 0.24,
      holdUp_s: 0,
      ambient_C: 40,
      cooling: 'case-vented',
      feeds: 'electronics',
      insulation: 'reinforced',
      pollutionDegree: 2,
      altitude_m: 2000,
    })
  })

  it('names the flag of a source in which the value is out of range', () => {
    expect(sentence({ volts: '24', amps: '3', frequency: '400' })).toMatch(/^--frequency: 400/)
    expect(sentence({ volts: '24', amps: '3', dc: '20-30 V' })).toMatch(/^--dc: /)
    expect(sentence({ volts: '24', amps: '3', input: '20-30 V' })).toMatch(/^--input: /)
  })

  it('reads values as people type them', () => {
    const need = needFromFlags({
      volts: '13,8 V',
      amps: '5A',
      input: '120 V ±10 %',
      frequency: '60',
      trim: '12-14.4 V',
      ripple: '150m',
      'hold-up': '10 ms',
      ambient: '104 °F',
      altitude: '1600',
      feeds: 'charging',
      earthed: true,
    })
    expect(need.outputEarthed).toBe(true)
    expect(need.source).toEqual({
      kind: 'mains',
      minimum_Vrms: 108,
      nominal_Vrms: 120,
      maximum_Vrms: 132,
      frequency_Hz: 60,
    })
    expect(need).toMatchObject({
      output_V: 13.8,
      output_A: 5,
      trimLow_V: 12,
      trimHigh_V: 14.4,
      ripple_Vpp: 0.15,
      holdUp_s: 0.01,
      altitude_m: 1600,
      feeds: 'charging',
    })
    expect(need.ambient_C).toBeCloseTo(40, 9)
  })

  it('takes a DC bus', () => {
    expect(needFromFlags({ volts: '5', amps: '4', dc: '100-380 V', nominal: '325' }).source).toEqual({
      kind: 'dc',
      minimum_V: 100,
      nominal_V: 325,
      maximum_V: 380,
    })
  })

  it.each<[string, Parameters<typeof needFromFlags>[0]]>([
    ['--volts is missing; give it as --volts 24', { amps: '3' }],
    ['--amps is missing; give it as --amps 3', { volts: '24' }],
    ['--volts: "many" is not a voltage', { volts: 'many', amps: '3' }],
    ['--volts: 100 is over 60', { volts: '100', amps: '1' }],
    ['--trim: the trim range 5 to 6 V must hold the output of 24 V', { volts: '24', amps: '3', trim: '5-6' }],
    ['--cooling: "water" is not one of open', { volts: '24', amps: '3', cooling: 'water' }],
    ['--input: 50 is under 80', { volts: '24', amps: '3', input: '50-265' }],
    [
      '--dc and --input are two different sources',
      { volts: '24', amps: '3', dc: '100-380', input: '85-265' },
    ],
    ['--amps: 300 W is over 250 W', { volts: '30', amps: '10' }],
    ['--pollution: "dirty" is not a number', { volts: '30', amps: '1', pollution: 'dirty' }],
  ])('says %s', (start, flags) => {
    expect(sentence(flags)).toContain(start)
  })
})
