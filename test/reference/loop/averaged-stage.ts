interface Case {
  readonly parameters: Readonly<Record<string, number>>
  readonly results: Readonly<Record<string, number>>
}

/** The stage of a case of `simulator.json`, at its output voltage. */
export function stageOf(c: Case, output_V: number) {
  const p = c.parameters
  return {
    bulk_V: p.Vin!,
    turnsRatio: p.n!,
    primaryInductance_H: p.Lm!,
    frequency_Hz: 100e3,
    output_V,
    output_A: output_V / p.Rload!,
    rectifierDrop_V: p.Vf ?? p.sec_diode_vf!,
    primaryResistance_ohm: p.Rpri! + p.Ron!,
    secondaryResistance_ohm: p.Rsec! + p.Rd!,
    filter: { capacitance_F: p.Cout!, capacitorResistance_ohm: p.Resr!, second: null },
    load: { kind: 'resistor' as const },
  }
}

/** Name in `simulator.json` and frequency in Hz of each figure of the averaged flyback. */
export const averagedFrequencies = [
  ['10', 10],
  ['100', 100],
  ['500', 500],
  ['1k', 1e3],
  ['1p2k', 1.2e3],
  ['2k', 2e3],
  ['5k', 5e3],
  ['10k', 10e3],
  ['20k', 20e3],
  ['50k', 50e3],
] as const
