/** Beginnings that make spreadsheets run a cell as a formula: after the OWASP page "CSV Injection". */
const RUNS = /^'*\s*[=+\-@\t\r\n\uFF0B\uFF0D\uFF1D\uFF20]/;
const NUMBER = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i;
/**
 * The same behind a semicolon or a line end within a text: where commas are decimal signs a spreadsheet parts cells by semicolons, and
 * quotation marks in the middle of a line do not keep it from that. Without and with its apostrophe.
 */
const RUNS_WITHIN = /([;\r\n])(?=['\s]*[=+\-@\uFF0B\uFF0D\uFF1D\uFF20])/g;
const GUARDED_WITHIN = /([;\r\n])'(?=['\s]*[=+\-@\uFF0B\uFF0D\uFF1D\uFF20])/g;

/**
 * A cell as it is written to CSV so that no spreadsheet runs it: one apostrophe is put before a text that begins with
 * `=`, `+`, `-`, `@` (also full-width), a tab or a line end; blanks and apostrophes before these make no difference. Plain numbers such as
 * -3.5 stay as they are. The same is done behind each semicolon and line end within a text, where some spreadsheets begin a cell.
 * {@link withoutGuard} gives back exactly the same text.
 */
export function withGuard(cell: string): string {
  const within = cell.replace(RUNS_WITHIN, "$1'");
  return RUNS.test(cell) && !NUMBER.test(cell) ? `'${within}` : within;
}

/** The text of a cell that {@link withGuard} wrote. */
export function withoutGuard(cell: string): string {
  const begun = cell.startsWith("'") && RUNS.test(cell) ? cell.slice(1) : cell;
  return begun.replace(GUARDED_WITHIN, '$1');
}
