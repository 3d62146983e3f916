import type { Material } from '../../parts/part.ts'

/**
 * Figures to reckon with when the grade is unknown: those of an early power ferrite, so that any later grade does
 * better. Saturation 0.30 T hot; losses of the first generation of power ferrites at 100 °C, about 900 kW/m³ at
 * 100 kHz and 200 mT, from memory.
 */
export const unknownFerrite: Material = {
  id: 'unknown-ferrite',
  kind: 'material',
  name: 'Power ferrite, grade unknown',
  note: 'Careful figures for a core from the drawer: replace them when the grade is known.',
  source: 'first-generation power ferrites, from memory',
  class: 'unknown',
  initialPermeability: { minimum: 1200, typical: 2000, maximum: 3200 },
  saturation: [
    { temperature_C: 25, field_A_per_m: 1200, flux_T: 0.4 },
    { temperature_C: 100, field_A_per_m: 1200, flux_T: 0.3 },
  ],
  lossPoints: [
    { frequency_Hz: 25e3, fluxPeak_T: 0.2, temperature_C: 100, loss_W_per_m3: 160e3 },
    { frequency_Hz: 100e3, fluxPeak_T: 0.2, temperature_C: 100, loss_W_per_m3: 900e3 },
    { frequency_Hz: 100e3, fluxPeak_T: 0.1, temperature_C: 100, loss_W_per_m3: 160e3 },
    { frequency_Hz: 100e3, fluxPeak_T: 0.2, temperature_C: 25, loss_W_per_m3: 1100e3 },
  ],
  curie_C: 200,
  density_kg_per_m3: 4800,
}
