import type { PlannedBrood } from '../api/pairings.js';
import { percent, plural } from './figures.js';

type Passing = PlannedBrood['passing'];

/** "about 37 in 100", and for the ends what can be said of them. */
function chanceWords(chance: number): string {
  if (chance < 0.005) return 'next to none';
  if (chance > 0.995) return 'nearly sure';
  return `about ${Math.round(100 * chance)} in 100`;
}

/** How likely the brood gives the young that are to be kept. */
export function passingWords({ share, chance, wanted, fry, survival }: Passing): string {
  if (share === null || chance === null)
    return 'How many young pass your standard is not known: a look that it asks for rests on a genotype of which nothing is known.';
  return `${percent(share, 0)} of the young are expected to pass your standard. Chance that at least ${wanted} of this brood pass, out of ${plural(fry, 'swimming fry', 'swimming fry')} of which ${percent(survival, 0)} live to be sorted: ${chanceWords(chance)}.`;
}

/** Fry to raise for a chance. */
export function fryWords({ wanted, fryFor }: Passing): string {
  if (fryFor.length === 0) return '';
  const reached = fryFor.filter(({ fry }) => fry !== null);
  if (reached.length === 0)
    return `No number of fry that one raises gives ${wanted} that pass with a chance of 80 in 100.`;
  const parts = reached.map(
    ({ certainty, fry }) =>
      `${fry!.toLocaleString('en')} for ${Math.round(100 * certainty)} in 100`,
  );
  const beyond = fryFor.length > reached.length ? ' A higher chance is out of reach.' : '';
  return `Fry to raise for ${wanted} that pass: ${parts.join(', ')}.${beyond}`;
}
