import { useMemo, useState } from 'react'
import type { Drawer } from '../../../engine/parts/part.ts'
import type { Place, Places } from '../../../engine/supply/build.ts'
import type { Supply } from '../../../engine/supply/supply.ts'
import { StandingMark } from '../../controls/gauge.tsx'
import { showRoom, standing } from '../../state/limits.ts'
import { answersStrings } from '../../strings/answers.ts'
import { buildStrings } from '../../strings/build.ts'
import { limitStrings } from '../../strings/limits.ts'
import { takeOver } from './mend-part.tsx'
import { ChoiceField } from './text-field.tsx'
import { useAsk } from './use-ask.ts'

const words = answersStrings.substitutes
/** Substitutes shown that do not hold. */
const mostFailing = 6

/** Parts at hand in place of the present one, by the margin that they leave. */
export const SubstitutesPart = ({ supply, drawer }: { supply: Supply; drawer: Drawer }) => {
  const places = (Object.keys(supply.build.places) as Place[]).filter((p) => supply.build.places[p] !== null)
  const [place, setPlace] = useState<Place>('switcher')
  const job = useMemo(
    () => ({ kind: 'substitutes', supply, drawer, place }) as const,
    [supply, drawer, place],
  )
  const reached = useAsk<'substitutes'>(job)
  const found = reached.is === 'here' ? reached.value : []
  const holding = found.filter((s) => s.holds)
  const shown = [...holding, ...found.filter((s) => !s.holds).slice(0, mostFailing)]
  return (
    <section>
      <h3 className="unseen">{words.title}</h3>
      <p className="lead">{words.lead}</p>
      <div className="answers-fields">
        <ChoiceField
          label={words.place}
          value={place}
          options={places.map((p) => [p, buildStrings.places[p]] as const)}
          choose={setPlace}
        />
      </div>
      <p>{words.present(supply.parts.find((p) => p.id === supply.build.places[place])?.name ?? '')}</p>
      <div role="status">
        {reached.is === 'working' && <p className="answers-waits">{words.working}</p>}
        {reached.is === 'failed' && <p className="answers-wrong">{reached.message}</p>}
        {reached.is === 'here' && found.length === 0 && <p>{words.none}</p>}
      </div>
      {shown.length > 0 && (
        <div className="sheet-scroll">
          <table className="answers-table">
            <thead>
              <tr>
                <th scope="col">{words.part}</th>
                <th scope="col">{words.left}</th>
                <th scope="col">{words.gives}</th>
                <th scope="col">
                  <span className="unseen">{words.use}</span>
                </th>
              </tr>
            </thead>
            <tbody>
              {shown.map(({ part, holds, limit }) => (
                <tr key={part.id} data-state={holds ? 'holds' : 'over'}>
                  <th scope="row">{part.name}</th>
                  <td>
                    <StandingMark state={standing(limit)} label={limitStrings[standing(limit)]} />{' '}
                    {showRoom(limit)}
                  </td>
                  <td>{limit.title}</td>
                  <td>
                    <button
                      type="button"
                      className="plain"
                      aria-label={`${words.use}: ${part.name}`}
                      onClick={() =>
                        takeOver(
                          supply,
                          {
                            parts: supply.parts.some((p) => p.id === part.id)
                              ? supply.parts
                              : [...supply.parts, part],
                            build: {
                              ...supply.build,
                              places: { ...supply.build.places, [place]: part.id } as Places,
                            },
                          },
                          words.used(buildStrings.places[place], part.name),
                        )
                      }
                    >
                      {words.use}
                    </button>
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
      {found.length > shown.length && (
        <p className="answers-quiet">{words.more(found.length - shown.length)}</p>
      )}
    </section>
  )
}
