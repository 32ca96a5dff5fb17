import type { AlleleOfLine, BroodKeeping, NumberToKeep, YoungToKeep } from '../api/keeping.js';
import { chanceText } from './chances.js';
import { percent, plainNumber, plural } from './figures.js';
import { worthOf } from './worth-words.js';

/** From this chance on it is said that a fish may be the last carrier: a guide of our own. */
export const TOLD_FROM = 0.05;

const LIKELY = 0.5;
const NEARLY_SURE = 0.95;

/** What speaks for a young, in a few words. */
export const adviceText: Readonly<Record<YoungToKeep['advice'], string>> = {
  KEEP: 'keep: among the best',
  CANNOT_TELL: 'as good as others (cannot be told apart)',
  OTHERS_FIRST: 'enough others are worth more',
  LAST_CARRIER: 'keep: likely the last carrier',
};

const sexes: Readonly<Record<YoungToKeep['fish']['sex'], readonly [one: string, many: string]>> = {
  MALE: ['male', 'males'],
  FEMALE: ['female', 'females'],
  UNSEXED: ['fish without a known sex', 'fish without a known sex'],
  UNCERTAIN: ['fish without a known sex', 'fish without a known sex'],
};

/** "place 2 of 7 males". */
export function placeText({ place, of, fish }: Pick<YoungToKeep, 'place' | 'of' | 'fish'>): string {
  const [one, many] = sexes[fish.sex];
  return of === 1 ? `the only ${one}` : `place ${place} of ${of} ${many}`;
}

/** What a young is worth to its line, in a sentence. */
export const youngText = (young: YoungToKeep): string =>
  `Worth as a parent ${worthOf(young.worth, young.standardError)} points, ${placeText(young)}: ${adviceText[young.advice]}.`;

/** "Keep 2 males and 3 females". */
export function keepText({ males, females }: NumberToKeep): string {
  const parts = [
    ...(males > 0 ? [plural(males, 'male')] : []),
    ...(females > 0 ? [plural(females, 'female')] : []),
  ];
  return `Keep ${parts.join(' and ')} of this brood`;
}

/** Why so many. */
export function becauseText({ basis, keep, broods, lost }: NumberToKeep): string {
  const share = `${keep} are kept of ${plural(broods, 'brood')} together, the same number of each, and as many males as females: that loses the least for the number kept`;
  if (basis === 'GUIDE')
    return `${share}. Nobody has said yet what this line is for, so these numbers are a guide of our own without a source.`;
  if (basis === 'PURPOSE')
    return `${share}. This follows from what the line is for: the brood was made in no round.`;
  return lost === 0
    ? `${share}. This follows from the round in which the brood was made.`
    : `${share}. This follows from the round in which the brood was made: ${plural(lost, 'pair')} of it came to nothing, so the others give more.`;
}

/** How many of them were kept so far. */
export function keptText({ kept }: Pick<BroodKeeping, 'kept'>): string {
  const { males, females, others } = kept;
  if (males + females + others === 0) return 'None of it is marked as a keeper yet.';
  const unknown = others > 0 ? `, ${others} without a known sex` : '';
  return `Keepers so far: ${plural(males, 'male')}, ${plural(females, 'female')}${unknown}.`;
}

/** An allele as people call it. */
export const alleleName = ({ name, symbol }: Pick<AlleleOfLine, 'name' | 'symbol'>): string =>
  `${name} (${symbol})`;

/** Where one of the alleles stands in a young; the line's own row of it beside. */
export interface AlleleTold {
  readonly allele: AlleleOfLine;
  readonly carried: YoungToKeep['alleles'][number];
}

/** The alleles of a young with their names. */
export const allelesTold = (
  young: Pick<YoungToKeep, 'alleles'>,
  alleles: readonly AlleleOfLine[],
): AlleleTold[] =>
  young.alleles.flatMap((carried) => {
    const allele = alleles.find(
      ({ locusId, alleleId }) => locusId === carried.locusId && alleleId === carried.alleleId,
    );
    return allele === undefined ? [] : [{ allele, carried }];
  });

/** "carries melano (m): 66.7 %, beside about 2.4 others". */
export function carriesText({ allele, carried: { chance, others } }: AlleleTold): string {
  const name = alleleName(allele);
  if (chance === null) return `whether it carries ${name} is not known`;
  return `carries ${name}: ${chanceText(chance)}, beside about ${plainNumber(others, 1)} other living fish of the line`;
}

/** "melano (m) 66.7 %, about 2.4 others": the same where there is little room. */
export function carriesBriefly({ allele, carried: { chance, others } }: AlleleTold): string {
  const known = chance === null ? 'not known' : chanceText(chance);
  return `${alleleName(allele)} ${known}, about ${plainNumber(others, 1)} others`;
}

/** What is lost with a young, where it may be the last carrier; the likeliest first. */
export const lastCarrierTexts = (
  young: Pick<YoungToKeep, 'alleles' | 'fish'>,
  alleles: readonly AlleleOfLine[],
): string[] =>
  allelesTold(young, alleles)
    .filter(({ carried: { last } }) => (last ?? 0) >= TOLD_FROM)
    .toSorted((a, b) => b.carried.last! - a.carried.last!)
    .map(({ allele, carried: { last } }) => {
      const how = last! >= NEARLY_SURE ? 'is' : last! >= LIKELY ? 'is likely' : 'may be';
      return `${young.fish.tag} ${how} the last fish of the line that carries ${alleleName(allele)}, even if it looks plain: chance ${percent(last!, 0)}. Without it the line would have lost it.`;
    });

/** What last carriers are told among. */
export const LAST_CARRIER_MEANING =
  'A last carrier carries what the line is for while no other living fish of the line with a record does. Young without a record, and fish of other lines, are not counted.';

const MATES: Readonly<Record<BroodKeeping['matesAre'], (count: number) => string>> = {
  KEEPERS: (count) => `${plural(count, 'keeper')} of the line from other broods`,
  IN_USE: (count) => `${plural(count, 'fish', 'fish')} of the line in use from other broods`,
  BROOD: (count) =>
    `${plural(count, 'fish', 'fish')} of this brood, because the line has no other in use`,
};

/** With how many of them, and what is left out of more than are reckoned with. */
const matesText = ({ matesAre, mateCount, mateTotal }: MatesTold): string =>
  mateTotal > mateCount
    ? `${mateCount} youngest of the ${MATES[matesAre](mateTotal)} (older ones are not counted: take younger ones that will not breed out of use, and they count)`
    : MATES[matesAre](mateCount);

type MatesTold = Pick<BroodKeeping, 'matesAre' | 'mateCount' | 'mateTotal'>;

/** What worth as a parent means, and whom it is reckoned with. */
export const keepingMeaning = (mates: MatesTold): string =>
  `Worth as a parent is what the young of this fish would be worth on average if it were paired with each of the ${matesText(mates)}. It is worked out as for pairs, in your own points for one young kept. All young of the brood are compared with the same fish, of both sexes. After ± stands the standard error: what is not known of this fish. “Cannot be told apart” means that the difference to a young on the other side of the number to keep is no more than twice its error.`;
