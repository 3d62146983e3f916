import { type CheckSpec, state } from './spec.ts'
import { live, output } from './ways.ts'

const common = {
  side: 'secondary',
  live: true,
  ways: output.eye,
  onlyInTrouble: true,
  risk: 'The cause stays less certain.',
} as const
const swap = { ...common, ways: live.swap } as const

/** What ear, eye and a second try tell on the full line. */
export const seenChecks: readonly CheckSpec[] = [
  state(
    'line.sound',
    'Sound',
    {
      none: 'none',
      'chirp light': 'chirps below a tenth of load, quiet above',
      'whine loaded': 'whines, more with load',
      'hiss heavy': 'hisses at heavy load and low input',
      hum: 'hums or whines at any load',
      ticks: 'ticks',
    },
    { ...common, spot: 'transformer' },
  ),
  state(
    'line.restart',
    'Restarts at full load',
    { none: 'none', fast: 'one or more a second', slow: 'seconds to minutes apart' },
    {
      ...common,
      spot: 'switcher',
      onlyInTrouble: false,
      stop: () => ({ below: null, above: null, text: 'Restarting: off, reduce the load.' }),
    },
  ),
  state(
    'line.low-line',
    'At the lowest input, full load',
    { same: 'as at nominal', drops: 'output drops or ripples', hisses: 'hisses, pulses alternate' },
    {
      ...common,
      spot: 'input',
      ways: [
        {
          instruments: ['variac', 'isolation-transformer', 'load-resistors'],
          how: 'Variac behind the isolation transformer, slowly down to the lowest input.',
          isolation: 'The isolation transformer isolates; the variac does not.',
          substitute: false,
        },
      ],
    },
  ),
  state(
    'line.slow-output',
    'Output on the scope, slow sweep',
    {
      steady: 'steady',
      'kHz sine': 'a sine of some kHz, not tied to mains',
      groups: 'groups of pulses',
      fuzzy: 'thick at the switching frequency',
      'mains ripple': 'ripple at twice the mains frequency',
    },
    {
      ...common,
      spot: 'output',
      ways: [output.ripple[0]],
    },
  ),
  state(
    'line.probe',
    'Probe tip on its own ground spring at the same node',
    { same: 'flat: the picture is real', 'still there': 'the spikes are still there' },
    {
      ...common,
      spot: 'output',
      ways: [output.ripple[0]],
    },
  ),
  state(
    'line.hand',
    'An insulated rod or the probe near the control pin',
    { same: 'changes nothing', upsets: 'upsets it' },
    { ...common, spot: 'switcher' },
  ),
  state(
    'line.load-type',
    'Resistors in place of the electronic load',
    { same: 'the same', 'resistor works': 'runs only with resistors' },
    {
      ...swap,
      spot: 'output',
    },
  ),
  state(
    'line.start-unloaded',
    'Started without load',
    { runs: 'as with load', 'starts only so': 'starts only so, or after several tries' },
    {
      ...swap,
      spot: 'outputCapacitor',
    },
  ),
  state(
    'line.preload',
    'A tenth of load added at the output',
    {
      same: 'changes nothing but the load',
      'quiets it': 'sound or groups stop',
      'rail falls': 'the high rail comes down',
    },
    {
      ...common,
      spot: 'output',
    },
  ),
  state(
    'line.fuse',
    'Fuse at plug-in',
    {
      holds: 'holds',
      'opens cold': 'opens at a hard plug-in, holds through the lamp',
      opens: 'opens at once',
    },
    {
      ...common,
      spot: 'fuse',
      side: 'mains',
    },
  ),
  state(
    'line.clamp-swap',
    'Another ultrafast diode in the clamp',
    { same: 'changes nothing', better: 'cooler and rings less' },
    { ...swap, spot: 'clampDiode' },
  ),
  state(
    'line.capacitor-swap',
    'A good capacitor laid across the output',
    { same: 'changes little', better: 'ripple halves' },
    { ...swap, spot: 'outputCapacitor' },
  ),
  state(
    'line.current-start',
    'Current in the first 200 ns of the on-time',
    { small: 'small against the peak', tall: 'as tall as the peak' },
    {
      ...common,
      spot: 'primary',
      ways: live.current,
    },
  ),
  state(
    'line-0.burst',
    'Pulses at no load',
    { even: 'even', groups: 'in groups' },
    { ...common, spot: 'switcher', ways: live.waveform },
  ),
  state(
    'soak.output-drift',
    'Output over an hour',
    { steady: 'steady', creeps: 'creeps with heat or load' },
    { ...common, spot: 'output' },
  ),
]
