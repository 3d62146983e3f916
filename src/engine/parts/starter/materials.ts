import type { Material } from '../part.ts'
import { milli } from './units.ts'

/**
 * Power ferrites named by the classes of IEC 61332. The points are typical of what makers print for a class, from
 * memory, and rounded; a builder who has the data sheet of the real grade should enter its points instead.
 */
const source = 'from memory: typical of the class in ferrite handbooks; IEC 61332 class naming'

/** Field strengths of the magnetisation curves, A/m. */
const fields = [25, 50, 100, 250, 500, 1200] as const
type Curve = readonly [number, number, number, number, number, number]

/** Loss rows: frequency kHz, peak flux mT, kW/m3 at 25, 60 and 100 °C. */
type LossRow = readonly [kHz: number, mT: number, at25: number, at60: number, at100: number]

const curve = (temperature_C: number, flux_mT: Curve) =>
  fields.map((field_A_per_m, i) => ({ temperature_C, field_A_per_m, flux_T: milli(flux_mT[i]!) }))

const losses = (rows: readonly LossRow[]) =>
  rows.flatMap(([kHz, mT, ...densities]) =>
    densities.map((density, i) => ({
      frequency_Hz: kHz * 1e3,
      fluxPeak_T: milli(mT),
      temperature_C: [25, 60, 100][i]!,
      loss_W_per_m3: density * 1e3,
    })),
  )

const ferrite = (
  id: string,
  name: string,
  material: Omit<Material, 'id' | 'kind' | 'name' | 'source'>,
): Material => ({ id, kind: 'material', name, source, ...material })

export const starterMaterials: readonly Material[] = [
  ferrite('ferrite-pw2', 'Power ferrite, 25 to 150 kHz, class PW2', {
    class: 'PW2',
    initialPermeability: { minimum: 1500, typical: 2000, maximum: 2500 },
    saturation: [...curve(25, [80, 195, 310, 425, 465, 490]), ...curve(100, [120, 205, 270, 330, 360, 385])],
    lossPoints: losses([
      [25, 100, 28, 22, 18],
      [25, 200, 160, 130, 105],
      [50, 200, 370, 300, 250],
      [100, 50, 38, 32, 26],
      [100, 100, 215, 180, 150],
      [100, 200, 1100, 920, 780],
      [150, 100, 370, 310, 265],
      [200, 50, 105, 92, 80],
    ]),
    curie_C: 220,
    density_kg_per_m3: 4750,
  }),
  ferrite('ferrite-pw3a', 'Power ferrite, 50 to 200 kHz, class PW3a', {
    class: 'PW3a',
    initialPermeability: { minimum: 1725, typical: 2300, maximum: 2875 },
    saturation: [...curve(25, [90, 215, 330, 430, 465, 490]), ...curve(100, [135, 225, 290, 345, 370, 390])],
    lossPoints: losses([
      [25, 100, 20, 15, 12],
      [25, 200, 125, 95, 78],
      [50, 200, 310, 235, 195],
      [100, 50, 29, 21, 17],
      [100, 100, 165, 120, 98],
      [100, 200, 830, 620, 540],
      [200, 50, 92, 70, 58],
      [200, 100, 440, 345, 300],
      [300, 50, 180, 145, 125],
    ]),
    curie_C: 220,
    density_kg_per_m3: 4800,
  }),
  ferrite('ferrite-pw3b', 'Low-loss power ferrite, 50 to 300 kHz, class PW3b', {
    class: 'PW3b',
    initialPermeability: { minimum: 1650, typical: 2200, maximum: 2750 },
    saturation: [...curve(25, [85, 210, 330, 435, 470, 490]), ...curve(100, [130, 225, 295, 350, 375, 395])],
    lossPoints: losses([
      [25, 100, 17, 11, 8.5],
      [25, 200, 105, 70, 57],
      [50, 200, 250, 170, 140],
      [100, 50, 21, 14, 10.5],
      [100, 100, 115, 78, 62],
      [100, 200, 630, 440, 375],
      [200, 50, 64, 46, 36],
      [200, 100, 310, 225, 190],
      [300, 50, 125, 95, 78],
      [300, 100, 520, 420, 385],
    ]),
    curie_C: 215,
    density_kg_per_m3: 4850,
  }),
  ferrite('ferrite-pw4b', 'High-frequency power ferrite, 200 to 500 kHz, class PW4b', {
    class: 'PW4b',
    initialPermeability: { minimum: 1500, typical: 2000, maximum: 2500 },
    saturation: [...curve(25, [75, 185, 295, 400, 440, 470]), ...curve(100, [115, 195, 260, 325, 350, 375])],
    lossPoints: losses([
      [25, 200, 120, 95, 90],
      [100, 50, 14, 11, 10],
      [100, 100, 88, 68, 62],
      [100, 200, 600, 480, 450],
      [200, 50, 40, 31, 28],
      [200, 100, 240, 195, 180],
      [300, 50, 76, 61, 56],
      [400, 50, 125, 105, 98],
      [500, 50, 182, 158, 150],
    ]),
    curie_C: 200,
    density_kg_per_m3: 4750,
  }),
]
