import { useMemo } from 'react'
import type { Drawer } from '../../../engine/parts/part.ts'
import type { Retarget } from '../../../engine/search/index.ts'
import { reference } from '../../../engine/supply/refs.ts'
import type { Supply } from '../../../engine/supply/supply.ts'
import { readValue } from '../../fields/parse.ts'
import { show } from '../../fields/show.ts'
import { showAgainst } from '../../state/limits.ts'
import { answersStrings } from '../../strings/answers.ts'
import { buildStrings } from '../../strings/build.ts'
import { spotLabel } from '../../strings/spots.ts'
import { sentence } from '../transformer/sentence.ts'
import { openAsSupply } from './answers-body.tsx'
import { TextField } from './text-field.tsx'
import { useAsk } from './use-ask.ts'
import { WindAnew } from './wind-anew.tsx'

const words = answersStrings.range
/** Broken limits that are told. */
const mostBroken = 4

/** Another output as it is typed, or pressed on the map. */
export interface TypedOutput {
  readonly volts: string
  readonly amps: string
}

/** What was typed, where both are values. */
export const outputTyped = ({ volts, amps }: TypedOutput) => {
  const [output_V, output_A] = [readValue(volts, 'V'), readValue(amps, 'A')]
  return output_V === null || output_A === null ? null : { output_V, output_A }
}

/** Every part that changes: what it is, what was there and what comes. */
const Exchanges = ({ changed }: { changed: Retarget['changed'] }) => (
  <>
    <h4>{words.changes}</h4>
    <ul className="why-list" data-long>
      {changed.map(({ spot, from, to }) => (
        <li key={spot}>
          <b>
            {spotLabel(spot)} {reference[spot]}
          </b>{' '}
          <span>{words.exchanged(from, to)}</span>
        </li>
      ))}
    </ul>
  </>
)

const Broken = ({ target }: { target: Retarget }) => (
  <>
    <h4>{words.brokenAlone}</h4>
    <ul className="why-list">
      {target.broken.slice(0, mostBroken).map((limit) => {
        const { reading, rating } = showAgainst(limit)
        return (
          <li key={limit.id}>
            <b>{limit.title}</b> {[reading, rating].filter((t) => t !== '').join(', ')}
          </li>
        )
      })}
    </ul>
  </>
)

const Target = ({ target, name }: { target: Retarget; name: string }) => {
  const serves = target.verdict !== 'none'
  return (
    <>
      <p className="answers-verdict" data-verdict={target.verdict}>
        {words.verdicts[target.verdict]}
      </p>
      {serves && target.changed.length > 0 && <Exchanges changed={target.changed} />}
      {target.broken.length > 0 && <Broken target={target} />}
      {target.moved && (
        <p className="answers-quiet">
          {words.moved(
            show(target.moved.reflectedVoltage_V, 'V'),
            show(target.moved.drainPlateau_V, 'V'),
            show(target.moved.rectifierReverse_V, 'V'),
            show(target.moved.bias_V, 'V'),
          )}
        </p>
      )}
      {serves && target.judged && (
        <button
          type="button"
          className="plain"
          onClick={() => void openAsSupply({ ...target.judged!.supply, name })}
        >
          {words.open}
        </button>
      )}
    </>
  )
}

/** Asks about one other output: what it takes to get there. */
export const RetargetPart = ({
  supply,
  drawer,
  typed,
  type,
}: {
  supply: Supply
  drawer: Drawer
  typed: TypedOutput
  type: (typed: TypedOutput) => void
}) => {
  const job = useMemo(() => {
    const output = outputTyped(typed)
    return output && ({ kind: 'retarget', supply, drawer, ...output } as const)
  }, [supply, drawer, typed])
  const reached = useAsk<'retarget'>(job)
  const answer = reached.is === 'here' ? reached.value : null
  const { output, current } = answersStrings.need
  const wrong = (label: string, text: string, unit: string) =>
    readValue(text, unit) === null ? buildStrings.notNumber(label, text, unit) : undefined
  return (
    <section className="retarget">
      <h3>{words.asked}</h3>
      <div className="answers-fields">
        <TextField
          label={output}
          value={typed.volts}
          error={wrong(output, typed.volts, 'V')}
          type={(volts) => type({ ...typed, volts })}
        />
        <TextField
          label={current}
          value={typed.amps}
          error={wrong(current, typed.amps, 'A')}
          type={(amps) => type({ ...typed, amps })}
        />
      </div>
      <div role="status" className="retarget-answer">
        {reached.is === 'failed' && <p className="answers-wrong">{sentence(reached.message)}</p>}
        {answer && !answer.ok && (
          <p className="answers-wrong">{sentence(answer.problems[0]?.message ?? '')}</p>
        )}
        {answer?.ok && (
          <Target
            target={answer.value}
            name={words.name(supply.name, typed.volts, typed.amps).slice(0, 120)}
          />
        )}
      </div>
      {answer?.ok && answer.value.verdict === 'none' && answer.value.judged && (
        <WindAnew need={answer.value.judged.supply.need} drawer={drawer} places={supply.build.places} />
      )}
    </section>
  )
}
