import { decimalIn } from '@linewright/pedigree';
export type PairingSort = 'WORTH' | 'INBREEDING' | 'SIRE' | 'DAM';
export type Direction = 'ASC' | 'DESC';
/** Pairs of one line first, only those, or all in one order. */
export type LinesOfPair = 'WITHIN_FIRST' | 'WITHIN' | 'ANY';

/** The pairs proposed for a line, all pairs, or partners from outside of a line. */
export type PairingView = 'PROPOSAL' | 'LIST' | 'OUTCROSS';

/** What the person asked for: kept in the address, so that the way back leads to the same list. */
export interface PairingChoice {
  view: PairingView;
  lineIds: string[];
  pairs: LinesOfPair;
  /** Percent, as typed. */
  largestF: string;
  /** Looks wanted in the brood, as locus:look. */
  looks: string[];
  discouraged: boolean;
  /** Fish that swim with partners, or nobody knows where, too. */
  partners: boolean;
  sort: PairingSort;
  direction: Direction;
}

/** The way round a column is read first: highest worth, then smallest F, then tags from A. */
export const firstDirection: Record<PairingSort, Direction> = {
  WORTH: 'DESC',
  INBREEDING: 'ASC',
  SIRE: 'ASC',
  DAM: 'ASC',
};

const sorts = Object.keys(firstDirection) as PairingSort[];

const listOf = (text: string | null): string[] =>
  text === null || text === '' ? [] : text.split(',');

const ALL_LINES = 'all';
const pairsOf: Record<string, LinesOfPair> = { within: 'WITHIN', any: 'ANY' };

interface LineInUse {
  id: string;
  inUseCount: number;
}

/** The line to begin with: the one looked at last here, else the one with most fish in use; none where no fish is. */
export function firstLines(lines: readonly LineInUse[], last: string | null): string[] {
  const inUse = lines.filter((line) => line.inUseCount > 0);
  const begun =
    inUse.find((line) => line.id === last) ??
    inUse.toSorted((a, b) => b.inUseCount - a.inUseCount)[0];
  return begun === undefined ? [] : [begun.id];
}

/** `begin` stands where the address says nothing of lines. */
export function readChoice(search: URLSearchParams, begin: readonly string[] = []): PairingChoice {
  const sort = sorts.find((each) => each === search.get('sort')) ?? 'WORTH';
  const direction = search.get('order');
  return {
    view: viewIn(search),
    lineIds: linesIn(search.get('line'), begin),
    pairs: pairsOf[search.get('pairs') ?? ''] ?? 'WITHIN_FIRST',
    largestF: search.get('f') ?? '',
    looks: listOf(search.get('look')),
    discouraged: search.get('discouraged') !== 'no',
    partners: search.get('partners') === 'yes',
    sort,
    direction: direction === 'ASC' || direction === 'DESC' ? direction : firstDirection[sort],
  };
}

const viewNames: Record<PairingView, string> = {
  PROPOSAL: 'proposal',
  LIST: 'list',
  OUTCROSS: 'outcross',
};

/** An address that names no view, but says how the list is to be, leads to the list. */
function viewIn(search: URLSearchParams): PairingView {
  const named = search.get('view');
  const views = Object.keys(viewNames) as PairingView[];
  return views.find((view) => viewNames[view] === named) ?? (search.size > 0 ? 'LIST' : 'PROPOSAL');
}

function linesIn(text: string | null, begin: readonly string[]): string[] {
  if (text === ALL_LINES) return [];
  return text === null ? [...begin] : listOf(text);
}

export function writeChoice(
  choice: PairingChoice,
  begin: readonly string[] = [],
): Record<string, string> {
  const asBegun = choice.lineIds.join(',') === begin.join(',');
  const said = {
    ...(!asBegun && { line: choice.lineIds.length > 0 ? choice.lineIds.join(',') : ALL_LINES }),
    ...(choice.pairs !== 'WITHIN_FIRST' && { pairs: choice.pairs.toLowerCase() }),
    ...(choice.largestF !== '' && { f: choice.largestF }),
    ...(choice.looks.length > 0 && { look: choice.looks.join(',') }),
    ...(!choice.discouraged && { discouraged: 'no' }),
    ...(choice.partners && { partners: 'yes' }),
    ...(choice.sort !== 'WORTH' && { sort: choice.sort }),
    ...(choice.direction !== firstDirection[choice.sort] && { order: choice.direction }),
  };
  const bare = choice.view === 'PROPOSAL' && Object.keys(said).length === 0;
  return bare ? {} : { view: viewNames[choice.view], ...said };
}

/** What is wrong with a typed percentage of F, if anything. */
export function largestFProblem(text: string): string | undefined {
  const value = decimalIn(text);
  if (text.trim() === '' || (value !== null && value >= 0 && value <= 100)) return undefined;
  return 'Give a percentage from 0 to 100, such as 12.5.';
}

export function numberProblem(text: string): string | undefined {
  return text.trim() === '' || decimalIn(text) !== null ? undefined : 'Give a number.';
}

/** The choice as the API takes it; slips of typing are left out, since their fields say so. */
export function toPairingInput(choice: PairingChoice) {
  const largest =
    largestFProblem(choice.largestF) === undefined ? decimalIn(choice.largestF) : null;
  return {
    includeDiscouraged: choice.discouraged,
    linesOfPair: choice.pairs,
    ...(choice.partners && { includePartners: true }),
    ...(choice.lineIds.length > 0 && { lineIds: choice.lineIds }),
    ...(largest !== null && { maximumInbreeding: largest / 100 }),
    ...(choice.looks.length > 0 && { wantClasses: choice.looks }),
  };
}

/** Pairs within a line and pairs across lines stand apart, unless one line alone is looked at. */
export const isGrouped = ({ pairs, lineIds }: PairingChoice): boolean =>
  pairs === 'WITHIN_FIRST' && lineIds.length !== 1;

/** Whether something that is chosen leaves pairs out. */
export const isFiltered = ({ lineIds, pairs, largestF, discouraged }: PairingChoice): boolean =>
  lineIds.length > 0 || pairs === 'WITHIN' || largestF !== '' || !discouraged;
