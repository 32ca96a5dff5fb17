// Turns the coverage bench's lines into the table of docs/methods/heritability.md:
// npm run -s bench -- coverage | node tests/bench/coverage-table.mjs
import { readFileSync } from 'node:fs';
import process from 'node:process';

const rows = readFileSync(0, 'utf8')
  .split('\n')
  .filter((line) => line.startsWith('{'))
  .map((line) => JSON.parse(line))
  .filter((line) => line.bench === 'coverage');

const cells = [
  ['fish', (row) => row.fish.toLocaleString('en-GB')],
  ['model', (row) => row.model],
  ['lines', (row) => row.lines.toLocaleString('en-GB')],
  ['scored', (row) => row.scoring],
  ['true heritability', (row) => row.truth],
  ['bias', (row) => row.bias.toFixed(3)],
  ['correlation', (row) => row.correlation.toFixed(2)],
  ['values held', (row) => row.heldValues.map((p) => p.toFixed(1)).join(', ')],
  ['heritability held', (row) => row.heldHeritability.map((p) => p.toFixed(1)).join(', ')],
  ['mean heritability', (row) => row.meanHeritability.toFixed(2)],
];
const line = (parts) => `| ${parts.join(' | ')} |`;
process.stdout.write(
  `${[
    line(cells.map(([name]) => name)),
    line(cells.map(() => '---')),
    ...rows.map((row) => line(cells.map(([, of]) => of(row)))),
  ].join('\n')}\n`,
);
