/**
 * What a spreadsheet takes for a formula: a text that begins with one of these marks, blanks passed over, or with a tab or line end. Also
 * with apostrophes before it, so that taking off the one that is put there gives back the text that was.
 */
const FORMULA = /^(?:[\s']*[=+\-@＝＋－＠]|'*[\t\r\n])/;

/**
 * A text of an input as a cell of a CSV: quoted where a comma, quote, tab or line end stands in it, and with an apostrophe before it where
 * a spreadsheet would take it for a formula and reckon.
 */
export function textCell(text: string): string {
  const plain = FORMULA.test(text) ? `'${text}` : text;
  return /[",\t\r\n]/.test(plain) ? `"${plain.replaceAll('"', '""')}"` : plain;
}

/** The text of a cell that `textCell` wrote, as it was: the apostrophe before a formula is taken off. */
export function textOfCell(cell: string): string {
  return cell.startsWith("'") && FORMULA.test(cell.slice(1)) ? cell.slice(1) : cell;
}
