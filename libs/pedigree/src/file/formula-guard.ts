/** Beginnings that make spreadsheets run a cell as a formula: after the OWASP page "CSV Injection". */
const RUNS = /^'*\s*[=+\-@\t\r\n\uFF0B\uFF0D\uFF1D\uFF20]/;
const NUMBER = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i;

/**
 * A cell as it is written to CSV so that no spreadsheet runs it: one apostrophe is put before a text that begins with
 * `=`, `+`, `-`, `@` (also full-width), a tab or a line end; blanks and apostrophes before these make no difference. Plain numbers such as
 * -3.5 stay as they are. {@link withoutGuard} gives back exactly the same text.
 */
export function withGuard(cell: string): string {
  return RUNS.test(cell) && !NUMBER.test(cell) ? `'${cell}` : cell;
}

/** The text of a cell that {@link withGuard} wrote. */
export function withoutGuard(cell: string): string {
  return cell.startsWith("'") && RUNS.test(cell) ? cell.slice(1) : cell;
}
