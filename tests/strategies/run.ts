import { writeFileSync } from 'node:fs';
import { format } from 'oxfmt';
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
/** Each is quick, and a share counted in few cases says little. */
const cases = 4 * lines;
const kinds = calibrate(cases);
console.error(`chances: ${Math.round(process.cpuUsage().user / 1e6)} s of processor`);
const PAGE = 'docs/methods/strategies.md';
const page = pageOf({ scenarios, kinds, lines, cases, monthsPerGeneration });
const { code, errors } = await format(PAGE, page, { printWidth: 100 });
if (errors.length > 0) throw new Error(errors.map(({ message }) => message).join('\n'));
writeFileSync(PAGE, code);
writeFileSync('docs/methods/strategies-chances.svg', reliabilityPicture(kinds));
