import type { Point } from '../svg/path.ts'
import type { Spot } from './model.ts'

/** Heights of the long wires, in drawing units. */
export const rail = {
  line: 150,
  neutral: 250,
  primaryTop: 80,
  drain: 240,
  bias: 420,
  primaryCommon: 650,
  outputTop: 80,
  outputCommon: 240,
  feedbackCommon: 690,
} as const

/** Abscissae of the vertical runs. */
export const column = {
  terminal: 40,
  bridgeLeft: 528,
  bridgeRight: 592,
  bulk: 634,
  control: 662,
  clamp: 735,
  winding: 900,
  barrier: 925,
  secondary: 950,
  ledFeed: 972,
  outputCapacitor: 1125,
  secondCapacitor: 1255,
  divider: 1300,
  indicator: 1335,
  output: 1450,
} as const

/** The sheet's corner and size, in drawing units. */
export const sheet = { top: -24, width: 1500, height: 790 } as const

export interface Seat {
  readonly centre: Point
  readonly quarterTurns: 0 | 1 | 2 | 3
  /** Where the words stand, from the centre, and how they are anchored. */
  readonly words: Point
  readonly anchor: 'start' | 'middle' | 'end'
}

const flat = (x: number, y: number, above = true): Seat => ({
  centre: [x, y],
  quarterTurns: 0,
  words: above ? [0, -40] : [0, 26],
  anchor: 'middle',
})
const upright = (x: number, y: number, side: 'right' | 'left' = 'right', quarterTurns: 1 | 3 = 1): Seat => ({
  centre: [x, y],
  quarterTurns,
  words: side === 'right' ? [17, -10] : [-17, -10],
  anchor: side === 'right' ? 'start' : 'end',
})

/** Where each part sits on the sheet. */
export const seats: Readonly<Record<Spot, Seat>> = {
  fuse: flat(95, rail.line),
  ntc: flat(170, rail.line),
  varistor: upright(222, 200),
  xCapacitor: upright(300, 200),
  bleed: upright(378, 200),
  commonModeChoke: { ...flat(480, rail.line), words: [0, -40] },
  bridge: { ...flat(560, 200), words: [0, 86] },
  bulkCapacitor: upright(column.bulk, 225),
  clampResistor: upright(708, 120, 'left'),
  clampCapacitor: upright(762, 120),
  clampAvalanche: upright(column.clamp, 120),
  clampDiode: upright(column.clamp, 200, 'right', 3),
  transformer: { centre: [column.barrier, 100], quarterTurns: 0, words: [-12, -84], anchor: 'end' },
  switcher: { centre: [column.clamp, 350], quarterTurns: 0, words: [64, -30], anchor: 'start' },
  controlCapacitor: upright(column.control, 620, 'left'),
  biasDiode: { ...flat(858, rail.bias, false), quarterTurns: 2, words: [4, -40] },
  biasCapacitor: upright(812, 460, 'left'),
  optocoupler: { centre: [column.barrier, 565], quarterTurns: 0, words: [0, 56], anchor: 'middle' },
  rectifier: flat(1020, rail.outputTop, false),
  snubberResistor: { ...flat(988, 40), words: [0, -40] },
  snubberCapacitor: { ...flat(1060, 40), words: [0, -40] },
  outputCapacitor: upright(column.outputCapacitor, 160),
  choke: flat(1195, rail.outputTop),
  secondCapacitor: upright(column.secondCapacitor, 160),
  indicatorResistor: upright(column.indicator, 120),
  indicator: upright(column.indicator, 195),
  ledResistor: upright(column.ledFeed, 440),
  biasResistor: upright(1035, 565),
  reference: { centre: [1168, 655], quarterTurns: 0, words: [-16, -4], anchor: 'end' },
  compensationResistor: flat(1150, 540, false),
  compensationCapacitor: flat(1231, 540, false),
  highFrequencyCapacitor: { ...flat(1190, 480), words: [0, -40] },
  softFinishCapacitor: upright(1010, 657),
  dividerTop: upright(column.divider, 420),
  trimmer: upright(column.divider, 600),
  dividerBottom: upright(column.divider, 660),
  yCapacitor: { ...flat(column.barrier, 725, false), words: [-16, 20], anchor: 'end' },
}
