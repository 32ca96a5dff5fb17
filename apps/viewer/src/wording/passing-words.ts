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

/** Chance that a proposed brood is planned for. */
const PLANNED = 0.9;

const plannedFry = ({ fryFor }: Passing): number | null =>
  fryFor.find(({ certainty }) => certainty === PLANNED)?.fry ?? null;

/** Fry to raise of one brood of a round. */
export function broodFryWords(passing: Passing): string {
  const { share, wanted } = passing;
  const fry = plannedFry(passing);
  if (share === null) return 'fry to raise: not known, for a look it asks for is not known';
  if (fry === null) return `no number of fry gives ${wanted} that pass`;
  return `raise ${plural(fry, 'fry', 'fry')} for ${wanted} that pass`;
}

/** Fry to raise of all broods of a round, held against what can be raised; and of pairs that are planned already, which take of the same room. */
export function roundFryWords(
  broods: readonly Passing[],
  room: number | null,
  planned: readonly Passing[] = [],
): string {
  const known = broods.map(plannedFry).filter((fry) => fry !== null);
  if (known.length === 0) return '';
  const of = (list: readonly number[]): number => list.reduce((sum, fry) => sum + fry, 0);
  const taken = of(planned.map(plannedFry).filter((fry) => fry !== null));
  const all = of(known);
  const without = broods.length - known.length;
  const parts = [
    `Fry to raise in all: ${all.toLocaleString('en')}, for a chance of ${100 * PLANNED} in 100 a brood.`,
    without > 0 ? `${plural(without, 'brood')} without a number not counted.` : '',
    taken > 0 ? `The pairs planned already take ${taken.toLocaleString('en')} more.` : '',
    room === null
      ? ''
      : all + taken > room
        ? `That is more than the ${room.toLocaleString('en')} that can be raised: keep fewer of each, or make fewer broods.`
        : `The line says that ${room.toLocaleString('en')} can be raised.`,
  ];
  return parts.filter((part) => part !== '').join(' ');
}
