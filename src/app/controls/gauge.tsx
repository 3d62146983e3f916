/**
 * The gap gauge. The bar is the reading and the post is the rating; the gap between them is the room that is left.
 * When the bar runs through the post, the part beyond is hatched.
 */
const post = 80

export const GapGauge = ({ margin, state }: { margin: number; state: 'over' | 'close' | 'holds' }) => {
  const used = Math.min(Math.max(1 - margin, 0), 1.25)
  return (
    <svg
      className="gauge"
      data-state={state}
      viewBox="0 0 100 8"
      preserveAspectRatio="none"
      aria-hidden="true"
    >
      <rect className="gauge-bar" x="0" y="2" width={Math.min(used, 1) * post} height="4" />
      {used > 1 && <rect className="gauge-past" x={post} y="2" width={(used - 1) * post} height="4" />}
      <line className="gauge-post" x1={post} x2={post} y1="0" y2="8" />
    </svg>
  )
}

/** Shape that says the standing without colour; with an empty label it only goes with words beside it. */
export const StandingMark = ({ state, label }: { state: 'over' | 'close' | 'holds'; label: string }) => (
  // biome-ignore lint/a11y/noSvgWithoutTitle: named by its label, or hidden beside words that say the same
  <svg
    className="standing"
    data-state={state}
    viewBox="0 0 12 12"
    {...(label === '' ? { 'aria-hidden': true } : { role: 'img', 'aria-label': label })}
  >
    {state === 'over' && <path d="M2 2l8 8M10 2l-8 8" />}
    {state === 'close' && <path d="M6 1.5 11 10.5H1zM6 5v2.5M6 8.7v.6" />}
    {state === 'holds' && <path d="M2 6.5 4.8 9 10 3" />}
  </svg>
)
