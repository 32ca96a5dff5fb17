import { run as contributions } from './contributions.bench.js';
import { run as coverage } from './coverage.bench.js';
import { run as database } from './database.bench.js';
import { run as door } from './door.bench.js';
import { run as importAndExport } from './import-and-export.bench.js';
import { run as heredity } from './heredity.bench.js';
import { run as kinship } from './kinship.bench.js';
import { run as layout } from './layout.bench.js';
import { run as mating } from './mating.bench.js';
import { run as merit } from './merit.bench.js';
import { run as oneScore } from './one-score.bench.js';
import { run as pairSet } from './pair-set.bench.js';
import { run as population } from './population.bench.js';
import { run as service } from './service/index.js';
import { run as schemes } from './schemes.bench.js';

const benches = {
  contributions,
  database,
  door,
  importAndExport,
  heredity,
  kinship,
  layout,
  mating,
  merit,
  'one-score': oneScore,
  'pair-set': pairSet,
  population,
  schemes,
};

/** Long runs, made only when they are named. */
const onRequest = { coverage, service };

/** `npm run bench`, or `npm run bench -- mating layout` for some of them. */
const wanted = process.argv.slice(2);

const all = wanted.length === 0 ? benches : { ...benches, ...onRequest };

for (const [name, run] of Object.entries(all)) {
  if (wanted.length > 0 && !wanted.includes(name)) continue;
  await run((line: object) => {
    process.stdout.write(`${JSON.stringify({ bench: name, ...line })}\n`);
  });
}
