import type { OwnRow } from '../stock/own-data/own-rows.js';
import { escaped } from '../sharing/line-page/html.js';

/** Rows of a table that the page shows; all of them stand in the file beside it. */
export const MOST_ON_PAGE = 500;

const STYLE = `
:root { color-scheme: light dark; }
body { font: 16px/1.5 system-ui, sans-serif; margin: 1rem auto; padding: 0 1rem; max-width: 80rem; }
.wide { overflow-x: auto; }
table { border-collapse: collapse; font-size: 0.85rem; }
th, td { text-align: left; vertical-align: top; padding: 0.2rem 0.8rem 0.2rem 0; border-bottom: 1px solid; }
`;

/** Of a table: its first rows and how many there are. */
export interface PageTable {
  readonly title: string;
  readonly file: string;
  readonly count: number;
  readonly first: readonly OwnRow[];
}

const cellOf = (value: unknown): string => {
  if (value === null || value === undefined) return '';
  return escaped(typeof value === 'object' ? JSON.stringify(value) : value);
};

const tableOf = ({ title, file, count, first }: PageTable): string => {
  const columns = [...new Set(first.flatMap((row) => Object.keys(row)))].filter((name) =>
    first.some((row) => row[name] !== null && row[name] !== undefined),
  );
  const head = columns.map((name) => `<th scope="col">${escaped(name.replaceAll('_', ' '))}</th>`);
  const rows = first.map(
    (row) => `<tr>${columns.map((name) => `<td>${cellOf(row[name])}</td>`).join('')}</tr>`,
  );
  const more = count > first.length ? ` The first ${first.length} stand here.` : '';
  return `<h2>${escaped(title)}</h2>
<p>${count} in <a href="${escaped(file)}">${escaped(file)}</a>.${more}</p>
<div class="wide"><table><thead><tr>${head.join('')}</tr></thead><tbody>
${rows.join('\n')}
</tbody></table></div>
`;
};

/** One's own data as one page without scripts, that asks for nothing from elsewhere. */
export const ownDataPage = (
  name: string,
  madeAt: Date,
  tables: readonly PageTable[],
  pictures: number,
): string => `<!doctype html>
<html lang="en"><head><meta charset="utf-8"><title>What is recorded of ${escaped(name)}</title>
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<style>${STYLE}</style></head><body>
<h1>What is recorded of ${escaped(name)}</h1>
<p>Taken out on ${escaped(madeAt.toISOString().slice(0, 16).replace('T', ', '))} UTC. Each table is a file of its own under data/, as JSON. ${pictures === 0 ? 'There are no photos.' : `Photos are under photos/: ${pictures}.`} Passwords, codes and tokens are not in it: only their hashes are kept, and those stay here.</p>
${tables.map(tableOf).join('')}</body></html>
`;
