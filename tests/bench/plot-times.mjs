// Draws time against size from a bench's lines: node tests/bench/plot-times.mjs kinship < bench.jsonl > plot.svg
import { readFileSync } from 'node:fs';
import process from 'node:process';

// Told apart by mark and dash as well as by colour.
const ONE = { dash: '', mark: 'circle' };
const OTHER = { dash: '6 4', mark: 'square' };
const SHAPES = [
  ['big spawns', '#0b6e6e'],
  ['small spawns', '#a33b1f'],
];
const KINDS = {
  kinship: {
    about: 'Processor time for all inbreeding coefficients against the number of fish',
    series: [
      ['as chosen', ONE, (line) => line.what === 'all F' && line.method === 'chosen'],
      ['traced', OTHER, (line) => line.what === 'all F' && line.method === 'trace'],
    ],
  },
  merit: {
    about:
      'Processor time for breeding values with exact errors, and for one score more, against the number of fish',
    series: [
      ['all values', ONE, (line) => line.what.startsWith('given ratio, all')],
      ['one score more', OTHER, (line) => line.what.startsWith('one score more')],
    ],
  },
};
const kind = process.argv[2] ?? 'kinship';
const { about, series: wanted } = KINDS[kind];
const SERIES = SHAPES.flatMap(([shape, colour]) =>
  wanted.map(([name, look, has]) => ({ name: `${shape}, ${name}`, shape, colour, has, ...look })),
);

const lines = readFileSync(0, 'utf8')
  .split('\n')
  .filter((line) => line.startsWith('{'))
  .map((line) => JSON.parse(line))
  .filter(
    (line) =>
      line.bench === kind && SERIES.some(({ shape, has }) => line.shape === shape && has(line)),
  );

const WIDTH = 720;
const HEIGHT = 440;
const LEFT = 70;
const RIGHT = 210;
const TOP = 20;
const BOTTOM = 50;

const sizes = lines.map((line) => line.fish);
const times = lines.map((line) => line.cpuMs);
const floor10 = (value) => Math.floor(Math.log10(value));
const [minX, maxX] = [floor10(Math.min(...sizes)), Math.ceil(Math.log10(Math.max(...sizes)))];
const [minY, maxY] = [floor10(Math.min(...times)), Math.ceil(Math.log10(Math.max(...times)))];
const x = (fish) => LEFT + ((Math.log10(fish) - minX) / (maxX - minX)) * (WIDTH - LEFT - RIGHT);
const y = (ms) =>
  HEIGHT - BOTTOM - ((Math.log10(ms) - minY) / (maxY - minY)) * (HEIGHT - TOP - BOTTOM);
const n = (value) => value.toFixed(1);

function mark({ mark: kind, colour }, cx, cy) {
  return kind === 'circle'
    ? `<circle cx="${n(cx)}" cy="${n(cy)}" r="4.5" fill="${colour}"/>`
    : `<rect x="${n(cx - 4)}" y="${n(cy - 4)}" width="8" height="8" fill="#fff" stroke="${colour}" stroke-width="2"/>`;
}

const parts = [];
for (let power = minY; power <= maxY; power++) {
  const at = y(10 ** power);
  const label = power < 3 ? `${10 ** power} ms` : `${10 ** (power - 3)} s`;
  parts.push(
    `<line x1="${LEFT}" x2="${WIDTH - RIGHT}" y1="${n(at)}" y2="${n(at)}" stroke="#ddd"/>`,
  );
  parts.push(`<text x="${LEFT - 8}" y="${n(at + 4)}" text-anchor="end">${label}</text>`);
}
for (let power = minX; power <= maxX; power++) {
  const at = x(10 ** power);
  const label = (10 ** power).toLocaleString('en-GB');
  parts.push(
    `<line x1="${n(at)}" x2="${n(at)}" y1="${TOP}" y2="${HEIGHT - BOTTOM}" stroke="#ddd"/>`,
  );
  parts.push(`<text x="${n(at)}" y="${HEIGHT - BOTTOM + 18}" text-anchor="middle">${label}</text>`);
}
parts.push(
  `<text x="${(LEFT + WIDTH - RIGHT) / 2}" y="${HEIGHT - 10}" text-anchor="middle">fish in the pedigree</text>`,
);
const labels = [];
for (const series of SERIES) {
  const points = lines
    .filter((line) => line.shape === series.shape && series.has(line))
    .sort((a, b) => a.fish - b.fish)
    .map((line) => [x(line.fish), y(line.cpuMs)]);
  if (points.length === 0) continue;
  const path = points.map(([px, py]) => `${n(px)},${n(py)}`).join(' ');
  parts.push(
    `<polyline points="${path}" fill="none" stroke="${series.colour}" stroke-width="2" stroke-dasharray="${series.dash}"/>`,
  );
  for (const [px, py] of points) parts.push(mark(series, px, py));
  labels.push(series);
}
labels.forEach((series, k) => {
  const at = TOP + 20 + 24 * k;
  const from = WIDTH - RIGHT + 16;
  parts.push(
    `<line x1="${from}" x2="${from + 28}" y1="${at}" y2="${at}" stroke="${series.colour}" stroke-width="2" stroke-dasharray="${series.dash}"/>`,
    mark(series, from + 14, at),
    `<text x="${from + 36}" y="${at + 4}">${series.name}</text>`,
  );
});

process.stdout
  .write(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${WIDTH} ${HEIGHT}" font-family="sans-serif" font-size="13" fill="#222" role="img" aria-label="${about}, both axes logarithmic">
<rect width="${WIDTH}" height="${HEIGHT}" fill="#fff"/>
${parts.join('\n')}
</svg>
`);
