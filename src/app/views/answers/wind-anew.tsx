import { useMemo, useState } from 'react'
import type { Drawer } from '../../../engine/parts/part.ts'
import type { Places } from '../../../engine/supply/build.ts'
import type { Need } from '../../../engine/supply/need.ts'
import { answersStrings } from '../../strings/answers.ts'
import { openAsSupply } from './answers-body.tsx'
import { useAsk } from './use-ask.ts'

const words = answersStrings.anew

/** The way on where a build cannot be brought to a need: its core and chip wound anew, with everything else chosen again. */
export const WindAnew = ({
  need,
  drawer,
  places: { core, switcher },
}: {
  need: Need
  drawer: Drawer
  places: Places
}) => {
  const [asked, setAsked] = useState<Need | null>(null)
  const job = useMemo(
    () => (asked === null ? null : ({ kind: 'one', need: asked, drawer, core, switcher } as const)),
    [asked, drawer, core, switcher],
  )
  const reached = useAsk<'one'>(job)
  const held = (id: string) => drawer.entries.some(({ part }) => part.id === id)
  if (!held(core) || !held(switcher)) return null
  const answer = asked === need && reached.is === 'here' ? reached.value : null
  return (
    <div>
      <p>
        {words.lead}{' '}
        <button type="button" className="plain" onClick={() => setAsked(need)}>
          {words.ask}
        </button>
      </p>
      <div role="status">
        {asked === need && reached.is === 'working' && <p className="answers-waits">{words.working}</p>}
        {asked === need && reached.is === 'failed' && <p className="answers-wrong">{reached.message}</p>}
        {answer && !answer.ok && <p>{words.none}</p>}
        {answer?.ok && (
          <p>
            <b>{words.found}</b>{' '}
            <button type="button" className="plain" onClick={() => void openAsSupply(answer.value)}>
              {words.open}
            </button>
          </p>
        )}
      </div>
    </div>
  )
}
