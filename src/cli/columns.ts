/** Words under one another in columns; the first column stands to the right unless told otherwise. */
export function columns(
  rows: readonly (readonly string[])[],
  side: (column: number) => 'left' | 'right' = (column) => (column === 0 ? 'right' : 'left'),
): string {
  const widths = (rows[0] ?? []).map((_, i) => Math.max(...rows.map((row) => row[i]?.length ?? 0)))
  return rows
    .map((row) =>
      row
        .map((cell, i) => (side(i) === 'right' ? cell.padStart(widths[i]!) : cell.padEnd(widths[i]!)))
        .join('  ')
        .trimEnd(),
    )
    .join('\n')
}
