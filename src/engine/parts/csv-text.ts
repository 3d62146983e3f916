/** A record's cells; null is a cell with nothing in it, '' one with an empty pair of quotes. */
export type CsvRecord = readonly (string | null)[]

export type CsvText =
  | { readonly ok: true; readonly records: readonly CsvRecord[] }
  | { readonly ok: false; readonly row: number; readonly message: string }

const csvLimits = { characters: 5_000_000, rows: 5001, columns: 400, cellCharacters: 20_000 } as const

/** The separator that the first line uses most, outside quotes. */
function separatorOf(text: string): string {
  const counts = new Map([',', ';', '\t'].map((mark) => [mark, 0]))
  let quoted = false
  for (const mark of text) {
    if (mark === '"') quoted = !quoted
    else if (!quoted && (mark === '\n' || mark === '\r')) break
    else if (!quoted && counts.has(mark)) counts.set(mark, counts.get(mark)! + 1)
  }
  return [...counts].reduce((best, next) => (next[1] > best[1] ? next : best))[0]
}

/**
 * Splits a table into records by RFC 4180. Also takes a byte order mark, a `sep=` line, semicolon or tab between
 * cells and any newline. Refuses open quotes, text after a closing quote, and tables beyond `csvLimits`. Records
 * without any cell filled come back empty.
 */
export function readCsv(source: string): CsvText {
  if (source.length > csvLimits.characters)
    return refuse(1, `the table has ${source.length} characters, over the limit of ${csvLimits.characters}`)
  const marked = source.replace(/^\uFEFF/, '')
  const told = /^sep=(.)\r?\n/i.exec(marked)
  const text = told ? marked.slice(told[0].length) : marked
  const separator = told?.[1] ?? separatorOf(text)
  const records: (string | null)[][] = [[]]
  let at = 0
  while (at < text.length) {
    const row = records.length
    const record = records[row - 1]!
    const cell = text[at] === '"' ? quotedCell(text, at) : plainCell(text, at, separator)
    if (cell === undefined) return refuse(row, 'a quote is opened and not closed')
    if (cell.value !== null && cell.value.length > csvLimits.cellCharacters)
      return refuse(
        row,
        `a cell has ${cell.value.length} characters, over the limit of ${csvLimits.cellCharacters}`,
      )
    record.push(cell.value)
    if (record.length > csvLimits.columns) return refuse(row, `more than ${csvLimits.columns} columns`)
    at = cell.end
    if (at >= text.length) break
    if (text[at] === separator) {
      at++
      if (at === text.length) record.push(null)
    } else if (text[at] === '\r' || text[at] === '\n') {
      at += text.startsWith('\r\n', at) ? 2 : 1
      if (at < text.length) records.push([])
      if (records.length > csvLimits.rows)
        return refuse(records.length, `more than ${csvLimits.rows - 1} rows`)
    } else return refuse(row, `text follows a closing quote: ${text.slice(at, at + 20)}`)
  }
  return { ok: true, records: records.map((r) => (r.every((cell) => cell === null) ? [] : r)) }
}

const refuse = (row: number, message: string): CsvText => ({ ok: false, row, message })

function plainCell(text: string, start: number, separator: string) {
  let end = start
  while (end < text.length && text[end] !== separator && text[end] !== '\r' && text[end] !== '\n') end++
  return { value: end === start ? null : text.slice(start, end), end }
}

function quotedCell(text: string, start: number) {
  let close = text.indexOf('"', start + 1)
  while (close >= 0 && text[close + 1] === '"') close = text.indexOf('"', close + 2)
  if (close < 0) return undefined
  return { value: text.slice(start + 1, close).replaceAll('""', '"'), end: close + 1 }
}

/** Writes records by RFC 4180, each ended by CR LF. */
export const writeCsv = (records: readonly CsvRecord[], separator: ',' | ';'): string =>
  records
    .map((record) => `${record.map((cell) => quoteWhereNeeded(cell, separator)).join(separator)}\r\n`)
    .join('')

const quoteWhereNeeded = (cell: string | null, separator: string) => {
  if (cell === null) return ''
  const plain = cell !== '' && !/["\r\n]/.test(cell) && !cell.includes(separator)
  return plain ? cell : `"${cell.replaceAll('"', '""')}"`
}

const formulaStart = /^'*[=+\-@\t\r\n\uFF1D\uFF0B\uFF0D\uFF20]/
const number = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i

/** A cell that a spreadsheet would run as a formula gets an apostrophe before it; numbers are left alone. */
export const withoutFormula = (cell: string) =>
  formulaStart.test(cell) && !number.test(cell) ? `'${cell}` : cell

/** Takes the apostrophe of `withoutFormula` off again. */
export const withFormula = (cell: string) =>
  cell.startsWith("'") && formulaStart.test(cell) ? cell.slice(1) : cell
