import type { RangeMap } from '../../../engine/search/index.ts'
import { show } from '../../fields/show.ts'
import { answersStrings } from '../../strings/answers.ts'

const words = answersStrings.range

/** The map in words: for each voltage, how far up, and what stops it then. */
export const RangeTable = ({ map }: { map: RangeMap }) => {
  const columns = map.volts.length
  const at = (column: number, row: number) => map.cells[row * columns + column]!
  const greatest = (column: number, verdicts: readonly string[]): number | null => {
    let found: number | null = null
    map.amps.forEach((amps, row) => {
      if (verdicts.includes(at(column, row).verdict)) found = amps
    })
    return found
  }
  const stops = (column: number): string => {
    for (let row = 0; row < map.amps.length; row++) {
      const cell = at(column, row)
      if (cell.verdict === 'none') return cell.limit?.title ?? words.nothing
    }
    return words.nothing
  }
  return (
    <div className="sheet-scroll">
      <table className="answers-table">
        <thead>
          <tr>
            <th scope="col">{words.at}</th>
            <th scope="col">{words.most}</th>
            <th scope="col">{words.mostParts}</th>
            <th scope="col">{words.stopped}</th>
          </tr>
        </thead>
        <tbody>
          {map.volts.map((volts, column) => {
            const [alone, parts] = [greatest(column, ['divider']), greatest(column, ['divider', 'parts'])]
            return (
              <tr key={volts}>
                <th scope="row">{show(volts, 'V')}</th>
                <td>{alone === null ? words.nothing : show(alone, 'A')}</td>
                <td>{parts === null ? words.nothing : show(parts, 'A')}</td>
                <td>{stops(column)}</td>
              </tr>
            )
          })}
        </tbody>
      </table>
    </div>
  )
}
