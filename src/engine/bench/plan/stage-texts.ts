import { formatQuantity, formatRange } from '../../quantity/index.ts'
import { bulkDischarge, dischargeResistor } from '../../supply/bulk-discharge.ts'
import { at, type Evaluation, greatest } from '../../supply/evaluation.ts'
import type { Readings } from '../../supply/reading.ts'
import { type InstrumentId, instrumentName } from '../instruments.ts'
import type { Bench } from '../unit/at-load.ts'
import { feedLimit_A } from '../unit/low-energy-readings.ts'
import { firstTemperatures_s } from '../unit/running-readings.ts'
import { warmUp } from '../unit/warm-up.ts'
import type { LampForecast, SmallerForecast, StageId } from './types.ts'

/** Words of one stage. */
export interface StageFacts {
  readonly title: string
  readonly purpose: string
  readonly setUp: readonly string[]
  readonly cautions: readonly string[]
  readonly stops: readonly string[]
  readonly leave: string
}

interface Facts {
  readonly evaluation: Evaluation
  readonly bench: Bench
  readonly lamp: LampForecast
  readonly smaller: SmallerForecast | null
  readonly owned: ReadonlySet<InstrumentId>
}

/** What to do after anything live, with the time that it takes. */
function dischargeWords({ design }: Evaluation, crest_V: number): string {
  const { energy_J, time_s } = bulkDischarge(design, crest_V)
  const { resistance_ohm, power_W, voltage_V, to_V } = dischargeResistor
  return `Switch off and unplug. Discharge C2 (${formatQuantity(energy_J, 'J', 2)} at ${formatQuantity(crest_V, 'V')}) through ${formatQuantity(resistance_ohm, 'ohm')}, ${power_W} W wirewound for ${voltage_V} V, on insulated leads for ${formatQuantity(Math.ceil(Math.max(2, 2 * time_s)), 's', 2)}, then read it: below ${to_V} V before anything is touched.`
}

/** Cautions that hold for the whole plan. */
export function standingCautions(evaluation: Evaluation): readonly string[] {
  const { design } = evaluation
  const most_V = greatest(evaluation, 'bulkPeak_V')?.readings.bulkPeak_V ?? 375
  return [
    `The primary carries up to ${formatQuantity(most_V, 'V')} and stays charged after unplugging; it kills. Nothing on it is touched while plugged in or before it has been discharged and read.`,
    'Not alone, one hand, no jewellery, no headphones, insulated tools, eye protection, live parts covered, first starts behind a screen. Residual-current device, switch within reach. Where the law asks for a licensed person, this is their work.',
    'No earthed oscilloscope clip on the primary without an isolation transformer, and never by cutting the earth of the oscilloscope.',
    design.parts.switcher.tabIsDrain
      ? 'The tab of the switcher, and a heatsink in contact with it, is at drain voltage.'
      : 'Heatsinks of the primary count as live.',
    'This plan does not certify anything; local codes decide.',
  ]
}

/** What is done, watched and feared at each stage, with the figures of this supply. */
export function stageTexts(f: Facts): Readonly<Record<StageId, StageFacts>> {
  const { evaluation, lamp, bench } = f
  const { design } = evaluation
  const { parts, need, feedback } = design
  const nominal = at(evaluation, 'nominal-0')
  const crest_V = nominal?.readings.bulkPeak_V ?? 325
  const leave = dischargeWords(evaluation, crest_V)
  const set_V = evaluation.fixed.outputSet_V
  const start = `Lowest input at which the chip starts: ${formatQuantity(evaluation.fixed.startInput_V, 'V')}; below it nothing happens, which is no fault.`
  const lampName = `${formatQuantity(lamp.power_W, 'W')} lamp for ${formatQuantity(lamp.voltage_V, 'V')} in series with one mains lead; an incandescent lamp: an LED lamp will not do`
  const unplugged = 'Unplugged and discharged; C2 reads below 5 V.'
  const short = at(evaluation, 'short')
  const withheld = short ? shortBreaks(short.readings, parts.switcher.drainVoltage_V) : null
  const { restartTry_s, restartPause_s } = parts.switcher
  const full = bench.at('nominal', 1)
  const warm = full ? warmUp(design, full) : null
  const settle_min = warm ? Math.max(5, Math.ceil(warm.settle_s / 300) * 5) : 60
  const loadWords = (percent: number): string => {
    const amps = (need.output_A * percent) / 100
    return percent === 0
      ? 'Nothing on the output.'
      : `${percent} % load: ${formatQuantity(amps, 'A')}, that is ${formatQuantity(set_V / amps, 'ohm')} and ${formatQuantity(set_V * amps, 'W')}.`
  }
  const line = (percent: 0 | 10 | 50 | 90 | 100): StageFacts => ({
    title:
      percent === 0
        ? 'Full line, no load'
        : `Full line, ${percent} % load, ${formatQuantity((need.output_A * percent) / 100, 'A')}`,
    purpose:
      percent === 0
        ? 'The lamp comes out. Nothing else changes.'
        : `Readings against plan at ${percent} % before the next step.`,
    setUp: [
      percent === 0
        ? `Unplugged, discharged, C2 read below ${dischargeResistor.to_V} V; then the lamp taken out of the lead; the fuse of the supply stays in. Mains at its nominal value, read at the socket.`
        : 'As before.',
      loadWords(percent),
      ...(percent === 100
        ? [
            `Temperatures after ${Math.round(firstTemperatures_s / 60)} minutes at full load, from a cold start.`,
          ]
        : []),
    ],
    cautions: percent === 0 ? ['Hard plug-in: face away, hand on the switch, one second, off, on.'] : [],
    stops: [
      'A bang, smoke, a smell, a rising hum, ticking: off.',
      `Output beyond ${formatRange(0.9 * set_V, 1.1 * set_V, 'V')}: off.`,
    ],
    leave: `Before anything is changed on the primary: ${leave}`,
  })
  return {
    cold: {
      title: 'Cold board',
      purpose: 'Shorts, opens and polarity, before anything is powered.',
      setUp: [unplugged, 'Load taken off.'],
      cautions: ['A board that was ever plugged in is charged until read.'],
      stops: ['Any short or open named below: no power until it is found.'],
      leave: 'Note what was read; nothing to discharge.',
    },
    transformer: {
      title: 'Transformer card',
      purpose: 'Inductance, leakage, sense of the windings: best before it is soldered in.',
      setUp: [
        'Transformer out of the board, or its pins free.',
        'Leakage with the secondary shorted at its pins by less than 1 cm of wire, the bias winding open.',
      ],
      cautions: ['Insulation readings charge the windings: discharge them after.'],
      stops: [
        'Windings reversed, inductance a quarter above plan, insulation below 100 MΩ: it is not fitted.',
      ],
      leave: 'Keep the values as built: all later numbers follow them.',
    },
    'low-energy': {
      title: 'Low energy',
      purpose: 'Reference, divider, LED and optocoupler proved from a bench supply, mains unplugged.',
      setUp: [
        unplugged,
        `Bench supply at the output terminals, limit ${formatQuantity(feedLimit_A, 'A')}: raise from 0 through ${formatQuantity(0.9 * set_V, 'V')} and ${formatQuantity(set_V, 'V')} to ${formatQuantity(1.03 * set_V, 'V')}. LED resistor ${formatQuantity(feedback.ledResistor_ohm, 'ohm')}.`,
        `Where the control supply is fed from outside: ${formatQuantity(parts.switcher.biasVoltage_V.typical, 'V')} through a diode at C5, control supply on before any drain supply, off after it, at most ${formatQuantity(parts.switcher.biasVoltage_V.maximum, 'V')}.`,
      ],
      cautions: [
        'The bench supply is the only source: the plug lies in sight.',
        `Not above ${formatQuantity(1.1 * set_V, 'V')}.`,
      ],
      stops: [
        'Bench supply in its limit: something conducts that should not.',
        'LED not lit 10 % above the set voltage: no mains.',
      ],
      leave: 'Take the bench supply off; the output capacitor stays charged for a while.',
    },
    'smaller-chip': {
      title: `Smaller switcher first${f.smaller ? `: ${f.smaller.name}` : ''}`,
      purpose: f.smaller?.text ?? '',
      setUp: [`The smaller switcher fitted, ${lampName}.`, start],
      cautions: ['Its limit protects the core and the clamp, not the builder.'],
      stops: ['Ticking without load, or the lamp bright: off.'],
      leave: `${leave} Then fit the planned switcher.`,
    },
    lamp: {
      title: 'Through the lamp, no load',
      purpose: `The lamp ${lamp.flash}; ${lamp.idle}.`,
      setUp: [
        `${lampName} (${lamp.choice}).`,
        start,
        lamp.note,
        'Meters clipped on before plugging in, output voltage first.',
      ],
      cautions: ['The lamp limits, it does not isolate and is no fuse: the board is as live as without it.'],
      stops: ['Lamp steadily bright, or pulsing for more than 5 s: off.', 'Output above its band: off.'],
      leave,
    },
    'lamp-load': {
      title: 'Through the lamp, light load',
      purpose: `A tenth of the load while the lamp still limits; the lamp ${lamp.takeOverGlow}.`,
      setUp: [loadWords(10), `${lampName}.`],
      cautions: [lamp.note],
      stops: ['Lamp bright or pulsing, output sagging: off.'],
      leave,
    },
    'line-0': line(0),
    'line-10': line(10),
    'line-50': line(50),
    'line-90': line(90),
    'line-100': line(100),
    short:
      withheld !== null
        ? withheldShort(withheld, leave)
        : {
            title: 'Short of the output',
            purpose: short
              ? `Tries of ${formatQuantity(restartTry_s, 's', 2)} with pauses of ${formatQuantity(restartPause_s, 's', 2)}: a tick about every ${formatQuantity(restartTry_s + restartPause_s, 's', 2)}, ${formatQuantity(short.readings.shortCurrent_A, 'A', 2)} within each try.`
              : 'Tries and pauses.',
            setUp: [
              'Thick short wire, switched on the output side, no load.',
              'At most 10 s; then a minute of rest.',
            ],
            cautions: ['The short wire may weld or spark: close it before switching on.'],
            stops: ['No pauses, a glow or a smell within a second: off.', 'Longer than 10 s: off.'],
            leave,
          },
    soak: {
      title: 'Soak at full load',
      purpose: `Temperatures that no longer move: about ${settle_min} minutes for this build.`,
      setUp: [
        loadWords(100),
        `Cover and position as in use, ambient noted. Readings at ${settle_min} minutes.`,
        thermometerWords(f),
      ],
      cautions: ['Live parts are never touched to feel their heat, nor right after switching off.'],
      stops: ['Any temperature above its stop, any pause: off.'],
      leave,
    },
    'sign-off': {
      title: 'Sign-off',
      purpose: 'Insulation once more while warm, record, label.',
      setUp: [unplugged],
      cautions: ['A reading does not certify insulation.'],
      stops: ['Insulation below 100 MΩ: it is not used.'],
      leave: 'Keep the record with the supply.',
    },
  }
}

function thermometerWords({ owned, evaluation }: Facts): string {
  const { design } = evaluation
  const { parts } = design
  const tool = (['thermal-camera', 'thermocouple', 'infrared-thermometer'] as const).find((i) => owned.has(i))
  const points = `plastic face of ${parts.switcher.package} switcher, its heatsink; rectifier; core next to the coil; body of ${design.clamp.style === 'avalanche' ? 'the avalanche device D2' : 'the clamp resistor R2'}`
  return tool
    ? `${instrumentName(tool)} at: ${points}. Matt patch of tape on shiny metal, stuck on while discharged.`
    : `No thermometer is listed. Spots that matter: ${points}. The coil can be read by its resistance after unplugging and discharge.`
}

/** Why a short must not be tried, or null: the peak that the current climbs to saturates the core or lifts the drain. */
function shortBreaks(r: Readings, drain_V: number): string | null {
  if (r.fluxLimit_T > r.saturation_T)
    return `the current would climb to ${formatQuantity(r.primaryPeak_A, 'A')} in each try and drive the core to ${formatQuantity(r.fluxLimit_T, 'T', 2)}, above the ${formatQuantity(r.saturation_T, 'T', 2)} at which it saturates`
  if (r.drainPeak_V > drain_V)
    return `the drain would reach ${formatQuantity(r.drainPeak_V, 'V')}, above its ${formatQuantity(drain_V, 'V')}`
  return null
}

const withheldShort = (reason: string, leave: string): StageFacts => ({
  title: 'Short of the output: not on this build',
  purpose: `By calculation ${reason}. The short is left out until the build has been changed.`,
  setUp: ['No short is made.'],
  cautions: ['An accidental short may destroy the switch and open the fuse.'],
  stops: [`A short by accident: off at once.`],
  leave,
})
