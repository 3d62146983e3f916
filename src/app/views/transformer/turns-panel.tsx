import { memo, useMemo } from 'react'
import { type TurnStep, turnSteps } from '../../../engine/search/range/turn-steps.ts'
import type { Evaluation } from '../../../engine/supply/evaluation.ts'
import { StandingMark } from '../../controls/gauge.tsx'
import { setting } from '../../fields/check.ts'
import { show, showPercent } from '../../fields/show.ts'
import { editSupply } from '../../state/desk.ts'
import { showRoom, standing } from '../../state/limits.ts'
import { limitStrings } from '../../strings/limits.ts'
import { transformerStrings } from '../../strings/transformer.ts'

const words = transformerStrings.turns

/** Parts of one rating, laid end to end. */
const Budget = ({
  parts,
  of,
  over,
}: {
  parts: readonly (readonly [string, number])[]
  of: number
  over: boolean
}) => {
  let x = 0
  return (
    <svg
      className="bar"
      viewBox="0 0 100 6"
      preserveAspectRatio="none"
      aria-hidden="true"
      data-state={over ? 'over' : undefined}
    >
      <rect className="bar-full" width="100" height="6" />
      {parts.map(([name, value]) => {
        const width = Math.max(0, Math.min(100 - x, (100 * value) / of))
        const at = x
        x += width
        return <rect key={name} className={name} x={at} width={width} height="6" />
      })}
    </svg>
  )
}

const Row = ({
  step,
  here,
  drain_V,
  reverse_V,
  take,
}: {
  step: TurnStep
  here: boolean
  drain_V: number
  reverse_V: number
  take: () => void
}) => {
  const { high, low, givesFirst } = step
  const state = standing(givesFirst)
  return (
    <tr data-here={here || undefined}>
      <th scope="row">
        {here ? (
          words.here(step.secondaryTurns)
        ) : (
          <button type="button" className="plain" onClick={take} aria-label={words.take(step.secondaryTurns)}>
            {words.count(step.secondaryTurns)}
          </button>
        )}
      </th>
      <td>{show(high.reflectedVoltage_V, 'V')}</td>
      <td>
        <Budget
          parts={[
            ['bar-bulk', high.bulkPeak_V],
            ['bar-part', high.reflectedVoltage_V],
            ['bar-spike', high.drainPeak_V - high.bulkPeak_V - high.reflectedVoltage_V],
          ]}
          of={drain_V}
          over={high.drainPeak_V > drain_V}
        />
        {show(high.drainPeak_V, 'V')}
      </td>
      <td>
        <Budget
          parts={[
            ['bar-part', high.rectifierReverse_V],
            ['bar-spike', high.rectifierReversePeak_V - high.rectifierReverse_V],
          ]}
          of={reverse_V}
          over={high.rectifierReversePeak_V > reverse_V}
        />
        {show(high.rectifierReverse_V, 'V')}
      </td>
      <td>{showPercent(low.duty)}</td>
      <td>{show(low.primaryPeak_A, 'A')}</td>
      <td>{show(low.clamp_W, 'W', 2)}</td>
      <td className="turns-first">
        <StandingMark state={state} label={limitStrings[state]} /> {givesFirst.title} {showRoom(givesFirst)}
      </td>
    </tr>
  )
}

/** What one turn more or less of the secondary does to drain, rectifier, duty and clamp. */
export const TurnsPanel = memo(({ evaluation }: { evaluation: Evaluation }) => {
  const { design } = evaluation
  const { supply, parts, transformer, clamp } = design
  const steps = useMemo(() => turnSteps(design), [design])
  const take = (secondaryTurns: number) => {
    const { primaryTurns, biasTurns, gap_m } = transformer
    const { resistor_ohm, capacitor_F } = clamp
    // What the table holds still is held still: else the tool would choose gap and clamp anew for the new turns.
    const coil = { secondaryTurns, primaryTurns, biasTurns, gap_m, stack: null }
    const held = clamp.style === 'avalanche' ? {} : { resistor_ohm, capacitor_F }
    editSupply(supply.id, {
      label: words.taken(secondaryTurns),
      key: null,
      changes: setting(supply, [
        [['build', 'transformer'], { ...supply.build.transformer, ...coil }],
        [['build', 'clamp'], { ...supply.build.clamp, ...held }],
      ]),
    })
  }
  const { columns } = words
  return (
    <section className="turns-panel">
      <h3>{words.title}</h3>
      <p className="lead">{words.lead}</p>
      <div className="table-scroll">
        <table className="reading-table">
          <thead>
            <tr>
              {Object.values(columns).map((title) => (
                <th key={title} scope="col">
                  {title}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {steps.map((step) => (
              <Row
                key={step.secondaryTurns}
                step={step}
                here={step.secondaryTurns === transformer.secondaryTurns}
                drain_V={parts.switcher.drainVoltage_V}
                reverse_V={parts.rectifier.reverse_V}
                take={() => take(step.secondaryTurns)}
              />
            ))}
          </tbody>
        </table>
      </div>
      <p className="hint">
        {words.caption(show(parts.switcher.drainVoltage_V, 'V'), show(parts.rectifier.reverse_V, 'V'))}
      </p>
    </section>
  )
})
