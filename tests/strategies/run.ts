import { writeFileSync } from 'node:fs';
import { calibrate } from './calibrate.js';
import { compare } from './compare.js';
import { pageOf } from './page.js';
import { reliabilityPicture } from './picture.js';
import { SCENARIOS } from './scenarios.js';

// npm run -s strategies [-- LINES]: writes docs/methods/strategies.md and its picture; minutes of one core.
const lines = Number(process.argv[2] ?? 500);
/** 154 days a generation, as for routes. */
const monthsPerGeneration = 154 / 30.44;

const scenarios = SCENARIOS.map((scenario) => {
  const outcomes = compare(scenario, lines);
  console.error(`${scenario.name}: ${Math.round(process.cpuUsage().user / 1e6)} s of processor`);
  return { scenario, outcomes };
});
const kinds = calibrate(lines);
console.error(`chances: ${Math.round(process.cpuUsage().user / 1e6)} s of processor`);
writeFileSync(
  'docs/methods/strategies.md',
  pageOf({ scenarios, kinds, lines, monthsPerGeneration }),
);
writeFileSync('docs/methods/strategies-chances.svg', reliabilityPicture(kinds));
