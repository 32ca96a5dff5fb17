const escapes: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** Text as it may stand between tags and in attributes. */
export const escaped = (text: unknown): string =>
  String(text).replace(/[&<>"']/g, (letter) => escapes[letter]!);

/** A column: its title, and the HTML of its cell. */
export type Column<Row> = readonly [title: string, cell: (row: Row) => string];

/** A table; nothing where there is no row. */
export const table = <Row>(
  title: string,
  rows: readonly Row[],
  columns: readonly Column<Row>[],
): string => {
  if (rows.length === 0) return '';
  const head = columns.map(([name]) => `<th scope="col">${escaped(name)}</th>`).join('');
  const body = rows.map(
    (row) => `<tr>${columns.map(([, cell]) => `<td>${cell(row)}</td>`).join('')}</tr>`,
  );
  return `<h2>${escaped(title)}</h2>\n<div class="wide"><table><thead><tr>${head}</tr></thead><tbody>\n${body.join('\n')}\n</tbody></table></div>\n`;
};
