import { show } from '../../fields/show.ts'
import { waveformStrings } from '../../strings/waveforms.ts'
import { type ReadLane, readingsAt } from './read-lane.ts'

const words = waveformStrings.figure

/** Values of every lane at the cursor and at the reference, and what lies between. */
export const ScopeReadout = ({
  lanes,
  cursor,
  reference,
  time,
}: {
  lanes: readonly ReadLane[]
  cursor: number
  reference: number | null
  time: (time_s: number) => string
}) => {
  const here = readingsAt(lanes, cursor)
  const there = reference === null ? null : readingsAt(lanes, reference)
  const apart = reference === null ? 0 : cursor - reference
  return (
    <table className="scope-readout">
      <thead>
        <tr>
          <td />
          <th scope="col">
            {words.cursor}
            <span>{time(cursor)}</span>
          </th>
          {reference !== null && (
            <>
              <th scope="col">
                {words.reference}
                <span>{time(reference)}</span>
              </th>
              <th scope="col">
                {words.between}
                <span>
                  {time(apart)}
                  {apart !== 0 && `, ${show(1 / Math.abs(apart), 'Hz')}`}
                </span>
              </th>
            </>
          )}
        </tr>
      </thead>
      <tbody>
        {lanes.map((lane, i) => (
          <tr key={lane.id}>
            <th scope="row">{lane.heading}</th>
            <td>{lane.read(here[i]!)}</td>
            {there && (
              <>
                <td>{lane.read(there[i]!)}</td>
                <td>{lane.read(here[i]! - there[i]!)}</td>
              </>
            )}
          </tr>
        ))}
      </tbody>
    </table>
  )
}
