/** Rows of cells as lines of even columns. */
export function textTable(rows: readonly (readonly string[])[]): string {
  const widths = (rows[0] ?? []).map((_, i) => Math.max(...rows.map((row) => [...(row[i] ?? '')].length)));
  return rows
    .map((row) =>
      row
        .map((cell, i) => cell + ' '.repeat(widths[i]! - [...cell].length))
        .join('  ')
        .trimEnd(),
    )
    .join('\n');
}
