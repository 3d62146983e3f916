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
  terminal: 34,
  bridgeLeft: 528,
  bridgeRight: 592,
  bulk: 634,
  control: 662,
  clamp: 735,
  winding: 900,
  barrier: 925,
  secondary: 950,
  ledFeed: 972,
  outputCapacitor: 1128,
  secondCapacitor: 1262,
  divider: 1310,
  ledTap: 1350,
  senseTap: 1366,
  indicator: 1398,
  commonReturn: 1460,
  output: 1500,
} as const

/** The sheet's corner and size, in drawing units. */
export const sheet = { top: -44, width: 1540, height: 790 } as const

/** Height of one line of words beside a part. */
export const line = 15

export interface Seat {
  readonly centre: Point
  readonly quarterTurns: 0 | 1 | 2 | 3
  /** Where the words stand, from the centre: their first line, or their last where they grow upward. */
  readonly words: Point
  readonly anchor: 'start' | 'middle' | 'end'
  readonly grow: 'down' | 'up'
  /** Letters after which a value goes on in the next line. */
  readonly widest: number
}

const flat = (x: number, y: number, above = true): Seat => ({
  centre: [x, y],
  quarterTurns: 0,
  words: above ? [0, -20] : [0, 30],
  anchor: 'middle',
  grow: above ? 'up' : 'down',
  widest: 14,
})
const upright = (
  x: number,
  y: number,
  side: 'right' | 'left' = 'right',
  widest = 9,
  quarterTurns: 1 | 3 = 1,
): Seat => ({
  centre: [x, y],
  quarterTurns,
  words: side === 'right' ? [18, -10] : [-18, -10],
  anchor: side === 'right' ? 'start' : 'end',
  grow: 'down',
  widest,
})

/** Where each part sits on the sheet. */
export const seats: Readonly<Record<Spot, Seat>> = {
  fuse: { ...flat(92, rail.line), widest: 11 },
  ntc: { ...flat(172, rail.line), words: [0, -28] },
  varistor: upright(226, 200, 'right', 7),
  xCapacitor: upright(306, 200, 'right', 8),
  bleed: upright(386, 200, 'right', 8),
  commonModeChoke: { ...flat(482, rail.line), words: [0, -28] },
  bridge: { ...flat(560, 200), words: [0, 86], grow: 'down' },
  bulkCapacitor: upright(column.bulk, 262, 'right', 9),
  clampResistor: upright(704, 120, 'left', 8),
  clampCapacitor: upright(766, 120),
  clampAvalanche: upright(column.clamp, 120, 'right', 12),
  clampDiode: upright(column.clamp, 200, 'right', 14, 3),
  transformer: {
    centre: [column.barrier, 100],
    quarterTurns: 0,
    words: [-14, -72],
    anchor: 'end',
    grow: 'up',
    widest: 30,
  },
  switcher: {
    centre: [column.clamp, 335],
    quarterTurns: 0,
    words: [64, -30],
    anchor: 'start',
    grow: 'down',
    widest: 14,
  },
  controlCapacitor: upright(column.control, 622, 'right', 7),
  biasDiode: { ...flat(858, rail.bias), quarterTurns: 2 },
  biasCapacitor: upright(812, 460, 'left', 8),
  optocoupler: {
    centre: [column.barrier, 565],
    quarterTurns: 0,
    words: [-18, 62],
    anchor: 'end',
    grow: 'down',
    widest: 18,
  },
  rectifier: { ...flat(1020, rail.outputTop, false), words: [-28, 30], anchor: 'start', widest: 14 },
  snubberResistor: flat(988, 40),
  snubberCapacitor: flat(1060, 40),
  outputCapacitor: upright(column.outputCapacitor, 160, 'right', 12),
  choke: { ...flat(1205, rail.outputTop), words: [0, -20] },
  secondCapacitor: upright(column.secondCapacitor, 160, 'right', 8),
  indicatorResistor: upright(column.indicator, 120),
  indicator: { ...upright(column.indicator, 195), words: [28, -6] },
  ledResistor: upright(column.ledFeed, 440),
  biasResistor: upright(1045, 565),
  reference: {
    centre: [1168, 655],
    quarterTurns: 0,
    words: [-18, 6],
    anchor: 'end',
    grow: 'down',
    widest: 12,
  },
  compensationResistor: flat(1150, 540, false),
  compensationCapacitor: flat(1231, 540, false),
  highFrequencyCapacitor: flat(1190, 480),
  softFinishCapacitor: upright(1020, 657, 'right', 8),
  dividerTop: upright(column.divider, 420),
  trimmer: upright(column.divider, 600),
  dividerBottom: upright(column.divider, 660),
  yCapacitor: { ...flat(column.barrier, 725, false), words: [-18, 22], anchor: 'end' },
}
