/** Text in the cells of a table that a spreadsheet may open. */

/** What a spreadsheet takes for a formula, whatever marks of text stand before it already. */
const FORMULA = /^'*[=+\-@\t\r]/;

/** A text as its cell holds it: one a spreadsheet would reckon, such as `=HYPERLINK(…)`, stands behind the mark of text. */
export const cellText = (text: string): string => (FORMULA.test(text) ? `'${text}` : text);

/** The text a cell holds, without that mark. */
export const textOfCell = (cell: string): string => (cell.startsWith("'") && FORMULA.test(cell) ? cell.slice(1) : cell);
