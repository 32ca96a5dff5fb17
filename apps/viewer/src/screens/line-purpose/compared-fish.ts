import type { Compared, ComparedFish, WorthAnswered, WorthsAnswered } from '@linewright/mating';
import { decimalIn } from '@linewright/pedigree';
import type { SeenFish } from '../../api/line-purpose.js';
import { plainNumber } from '../../wording/figures.js';
import type { PurposeValues } from './purpose-values.js';

/** What is wished for, as it stands in the form; points that cannot be read count as none. */
export function comparedOf({ traits, looks }: Pick<PurposeValues, 'traits' | 'looks'>): Compared {
  return {
    traits: traits.map(({ traitId, better, low, high, worth }) => ({
      traitId,
      better: ({ HIGHER: 'higher', LOWER: 'lower', WITHIN: 'within' } as const)[better],
      ...{ low: decimalIn(low), high: decimalIn(high) },
      worth: pointsIn(worth),
    })),
    looks: looks.map(({ parts, wanted, worth, required }) => ({
      look: { show: Object.fromEntries(parts.map((part) => splitAt(part))) },
      wanted: wanted === 'yes',
      ...{ worth: pointsIn(worth), required },
    })),
  };
}

const pointsIn = (text: string): number => Math.max(0, decimalIn(text) ?? 0);

const splitAt = (part: string): [string, string] => {
  const at = part.indexOf(':');
  return [part.slice(0, at), part.slice(at + 1)];
};

/** What is said where not all fish of a line are compared; `null` where all are. */
export const comparedOfAll = (shown: number, total: number): string | null =>
  total > shown
    ? `Compared are the first ${shown} by tag of the ${total} fish of the line in use. Take those that will not breed out of use, and others are compared.`
    : null;

/** What of a fish is looked at here. */
export type KnownFish = Pick<SeenFish, 'id' | 'latestScores' | 'phenotypesSeen'>;

/** What is known of a fish: its latest scores, and what was seen last at each locus. */
export function comparedFish({ id, latestScores, phenotypesSeen }: KnownFish): ComparedFish {
  const looks = new Map<string, string>();
  const standing = phenotypesSeen.filter(({ withdrawn }) => withdrawn === null);
  for (const { locusId, phenotype } of standing.toSorted((a, b) => (a.seenOn < b.seenOn ? -1 : 1)))
    looks.set(locusId, phenotype);
  return { id, traits: new Map(latestScores.map((one) => [one.trait.id, one.value])), looks };
}

/** Three digits: the answers never say more. */
export const pointsText = (worth: number): string => plainNumber(Number(worth.toPrecision(3)), 6);

/** As the fields take them, in the order of the form. */
export const pointsOf = ({ traits, looks }: WorthsAnswered) => ({
  traits: traits.map(({ worth }) => pointsText(worth)),
  looks: looks.map(({ worth }) => pointsText(worth)),
});

export type SurenessWord = 'not asked' | 'against' | 'sure' | 'likely' | 'open';

/** How sure it is that a wish counts at all, in a word. */
export function sureness({ asked, sure }: WorthAnswered): SurenessWord {
  if (!asked) return 'not asked';
  if (sure < 0.2) return 'against';
  if (sure >= 0.975) return 'sure';
  return sure >= 0.8 ? 'likely' : 'open';
}
