import type { Candidate } from '../../api/pairing-candidates.js';
import { meanText } from '../../components/pair-judgement.js';
import { percent, plural } from '../../wording/figures.js';

const SHOWN = 3;
const TRAITS_SHOWN = 2;

export const pairKey = ({ sire, dam }: Candidate): string => `${sire.id} ${dam.id}`;
export const pairWords = ({ sire, dam }: Candidate): string => `${sire.tag} by ${dam.tag}`;

export const WITHIN = 'Pairs of one line';
export const BETWEEN = 'Crosses between lines, or with a fish of no line';

/** The list as it comes, pairs of one line apart from the others; empty groups are left out. */
export function pairGroups(
  candidates: readonly Candidate[],
): { title: string; candidates: readonly Candidate[] }[] {
  const isWithin = ({ sire, dam }: Candidate) =>
    sire.line !== null && sire.line.id === dam.line?.id;
  return [
    { title: WITHIN, candidates: candidates.filter(isWithin) },
    { title: BETWEEN, candidates: candidates.filter((each) => !isWithin(each)) },
  ].filter((group) => group.candidates.length > 0);
}

/** The first few of a list, and how many more there are: the row's explanation has them all. */
function firstFew(parts: readonly string[], none: string, shown = SHOWN): string {
  if (parts.length === 0) return none;
  const more = parts.length - shown;
  return parts.slice(0, shown).join(', ') + (more > 0 ? ` and ${more} more` : '');
}

interface LeftOut {
  totalCount: number;
  listedCount: number;
  unsexedCount: number;
  awayCount: number;
}

/** What brings in fish that are not known to swim here: for whoever looks at lines of others, also those whose place is not shared. */
export const OFFER_AWAY = 'Offer fish that swim with partners too';
export const OFFER_UNPLACED = 'Offer fish elsewhere, or whose place is not shared, too';

/** What of the stock stands in no pair, or behind the end of the list, and what to do about it. */
export function leftOutWords(list: LeftOut, placesMaybeHidden: boolean): string {
  const { totalCount, listedCount, unsexedCount, awayCount } = list;
  const words = (count: number) => plural(count, 'fish', 'fish');
  return [
    listedCount < totalCount
      ? `All ${totalCount.toLocaleString('en')} pairs were judged; the list ends after the first ${listedCount.toLocaleString('en')}. Choose a line, or allow a smaller F, to see others.`
      : '',
    unsexedCount > 0
      ? `${words(unsexedCount)} in use of unknown sex: in no pair until the sex is recorded.`
      : '',
    awayCount > 0
      ? placesMaybeHidden
        ? `${words(awayCount)} in use swim elsewhere, or where is not shared with you: not listed unless you tick “${OFFER_UNPLACED}”.`
        : `${words(awayCount)} in use not here: not listed unless you tick “${OFFER_AWAY}”.`
      : '',
  ]
    .filter((part) => part !== '')
    .join(' ');
}

export const ancestorsShort = ({ mainAncestors }: Candidate): string =>
  firstFew(
    mainAncestors.map(({ ancestor, contribution }) => `${ancestor.tag} ${percent(contribution)}`),
    'none',
  );

/** The likeliest few classes of the young, and how many more there are. */
export function likeliestClasses({ classes }: Candidate): {
  shown: Candidate['classes'];
  more: number;
} {
  const sorted = [...classes].sort((a, b) => b.probability - a.probability);
  return { shown: sorted.slice(0, SHOWN), more: Math.max(0, sorted.length - SHOWN) };
}

export const classWords = ({ fraction, phenotype }: Candidate['classes'][number]): string =>
  fraction === '1' ? `all ${phenotype}` : `${fraction} ${phenotype}`;

export const meansShort = ({ traitMeans }: Candidate): string =>
  firstFew(
    traitMeans
      .filter(({ mean }) => mean !== null)
      .map((each) => `${each.trait.name} ${meanText(each)}`),
    'not scored',
    TRAITS_SHOWN,
  );
