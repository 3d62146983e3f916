const everywhere = 'at every condition'
const worst = (where: string) =>
  where === everywhere ? 'It is the same at every condition.' : `Worst at ${where}.`

/** Words about limits and margins. */
export const limitStrings = {
  title: 'What gives first',
  verdict: 'Verdict',
  short: 'Limits',
  jump: 'Parts of this view',
  over: 'over',
  close: 'close',
  holds: 'holds',
  counts: (over: number, close: number, holding: number) => [
    { state: over > 0 ? ('over' as const) : ('holds' as const), mark: 'over' as const, text: `${over} over` },
    {
      state: close > 0 ? ('close' as const) : ('holds' as const),
      mark: 'close' as const,
      text: `${close} close`,
    },
    { state: 'holds' as const, mark: 'holds' as const, text: `${holding} hold` },
  ],
  basis: { rating: 'Rating of the part', rule: 'Good practice', need: 'What was asked' },
  sense: { 'at-most': 'at most', 'at-least': 'at least' },
  always: everywhere,
  why: 'Beyond it',
  raise: 'More room',
  band: (percent: string) => `The reading is good to about ± ${percent}.`,
  go: 'Go to',
  firstOver: (title: string) => `${title} gives.`,
  left: (percent: string) => `with ${percent} left`,
  /** The rule that the supply runs, where it does not. */
  stopped: 'It does not run everywhere.',
  stoppedWhy: (where: string, why: string) => `At ${where}: ${why}`,
  stands: 'does not run',
  firstHolds: (title: string) => `${title} gives first.`,
  verdictOver: (reading: string, rating: string, where: string) =>
    `${reading}, and it must be ${rating}. ${worst(where)}`,
  verdictHolds: (left: string, reading: string, rating: string, where: string) =>
    `It holds, ${left}: ${reading}, to be ${rating}. ${worst(where)}`,
  more: (n: number) => (n === 1 ? 'One other limit does not hold.' : `${n} other limits do not hold.`),
  scale: 'Margins of all limits',
  scaleStop: 'rating',
  scaleEnd: 'plenty',
  none: 'No limit applies.',
  showAll: (n: number) => `Show the ${n} that hold with room`,
  showFewer: 'Show only the weakest',
} as const
