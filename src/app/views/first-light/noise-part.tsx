import { useState } from 'react'
import { faultDefinitions } from '../../../engine/bench/faults/table.ts'
import { noisePath } from '../../../engine/bench/index.ts'
import { firstLightStrings } from '../../strings/first-light.ts'
import { showFirstLightPart } from './part-store.ts'

const words = firstLightStrings.noise
const faultTitles = new Map(faultDefinitions.map((f) => [f.id, f.title]))

/** A short dialogue from a sound or an interference to what it is. */
export const NoisePart = () => {
  const [answers, setAnswers] = useState<Readonly<Record<string, string>>>({})
  const progress = noisePath(answers)
  const { path } = progress
  const asked = progress.kind === 'ask' ? path.slice(0, -1) : path
  const back = () => {
    const last = asked.at(-1)
    if (last === undefined) return
    const { [last]: _, ...rest } = answers
    setAnswers(rest)
  }
  return (
    <section className="fl-noise">
      <h3>{words.title}</h3>
      <p className="lead">{words.lead}</p>
      <div role="status">
        {progress.kind === 'ask' ? (
          <fieldset className="fl-question">
            <legend>{progress.step.question}</legend>
            <p className="caution">{progress.step.how}</p>
            <div className="fl-answers">
              {progress.step.answers.map(({ id, label }) => (
                <button
                  key={id}
                  type="button"
                  className="fl-answer"
                  onClick={() => setAnswers({ ...answers, [progress.step.id]: id })}
                >
                  {label}
                </button>
              ))}
            </div>
          </fieldset>
        ) : (
          <div className="fl-verdict" data-urgency={progress.verdict.urgency}>
            <p className="fl-urgency">{words.urgency[progress.verdict.urgency]}</p>
            <h4>{progress.verdict.title}</h4>
            <p>{progress.verdict.meaning}</p>
            {progress.verdict.todo.length > 0 && (
              <>
                <h4>{words.todo}</h4>
                <ul className="fl-bullets">
                  {progress.verdict.todo.map((line) => (
                    <li key={line}>{line}</li>
                  ))}
                </ul>
              </>
            )}
            {progress.verdict.faults.length > 0 && (
              <>
                <h4>{words.faults}</h4>
                <ul className="fl-bullets">
                  {progress.verdict.faults.map((id) => (
                    <li key={id}>{faultTitles.get(id) ?? id}</li>
                  ))}
                </ul>
                <button type="button" className="plain" onClick={() => showFirstLightPart('finder')}>
                  {firstLightStrings.toFinder}
                </button>
              </>
            )}
          </div>
        )}
      </div>
      {asked.length > 0 && (
        <p className="fl-steps">
          <button type="button" className="plain" onClick={back}>
            {words.back}
          </button>
          <button type="button" className="plain" onClick={() => setAnswers({})}>
            {words.restart}
          </button>
        </p>
      )}
    </section>
  )
}
