import { dayAfter } from '@linewright/care';
import { decimalIn } from '@linewright/pedigree';
import type { VariablesOf } from '../../api/graphql.js';
import type { FISH_LIST } from '../../api/fish.js';
import type { ListSort } from '../../components/virtual-list.js';
import { today } from '../../wording/figures.js';
import type { Disposition, FishPlace, Sex } from '../../wording/words.js';

export type FishSortField = 'TAG' | 'HATCH_DATE' | 'CREATED_AT' | 'LINE' | 'DISPOSITION';
type Filter = NonNullable<VariablesOf<typeof FISH_LIST>['filter']>;

const sexes: readonly string[] = ['MALE', 'FEMALE', 'UNSEXED', 'UNCERTAIN'];
const dispositions: readonly string[] = [
  'UNSORTED',
  'KEEPER',
  'HOLD',
  'CULLED',
  'PLACED',
  'DIED',
  'ELSEWHERE',
];
const sortFields: readonly string[] = ['TAG', 'HATCH_DATE', 'CREATED_AT', 'LINE', 'DISPOSITION'];

const places: readonly string[] = ['HERE', 'PARTNER', 'UNKNOWN'];

/** Fish that are alive: kept, held, not sorted yet, or placed (with the person of this install, where they are here). */
const alive: Disposition[] = ['UNSORTED', 'KEEPER', 'HOLD', 'PLACED'];

/** A number typed in the address, or null for what is none. */
const numberIn = (text: string | null): number | null => {
  const number = text === null || text.trim() === '' ? Number.NaN : decimalIn(text);
  return number === null || !Number.isFinite(number) ? null : number;
};

const weeksBefore = (day: string, weeks: number): string => dayAfter(day, -7 * weeks);

/** Ages in weeks, as days of hatching. */
function agesFrom(search: URLSearchParams, today: string): Filter {
  const [least, most] = ['older', 'younger'].map((name) => numberIn(search.get(name)));
  return {
    ...(least == null || least < 0 ? {} : { hatchedTo: weeksBefore(today, least) }),
    ...(most == null || most < 0 ? {} : { hatchedFrom: weeksBefore(today, most) }),
  };
}

/** What was seen, scored and photographed, and in which vessel it is: `vessel=ID`, `look=dt:double`, `allele=dt:double:dt`, `trait=…&least=…&most=…`, `photo=no`. */
function evidenceFrom(search: URLSearchParams): Filter {
  const [lookLocus, look] = (search.get('look') ?? '').split(':');
  const [alleleLocus, ...writtenAs] = (search.get('allele') ?? '').split(':');
  const traitId = search.get('trait') ?? '';
  const photo = search.get('photo');
  const vessel = search.get('vessel') ?? '';
  const [least, most] = ['least', 'most'].map((name) => numberIn(search.get(name)) ?? null);
  return {
    ...(lookLocus && look ? { look: { locusId: lookLocus, look } } : {}),
    ...(alleleLocus && writtenAs.length > 0 ? { allele: { locusId: alleleLocus, writtenAs } } : {}),
    ...(traitId === '' ? {} : { score: { traitId, least: least ?? null, most: most ?? null } }),
    ...(vessel === '' ? {} : { vesselIds: [vessel] }),
    ...(photo === 'yes' || photo === 'no' ? { hasPhoto: photo === 'yes' } : {}),
  };
}

/** Parts of the address by which fish are narrowed to what was seen of them. */
const seenParts = [
  'vessel',
  'look',
  'allele',
  'trait',
  'least',
  'most',
  'older',
  'younger',
  'photo',
];

export const asksOfSeen = (search: URLSearchParams): boolean =>
  seenParts.some((name) => (search.get(name) ?? '') !== '');

/** Neither a disposition nor a use nor a place was asked for: the list shows the fish that are alive and here. */
export const isHereOnly = (search: URLSearchParams): boolean =>
  ['disposition', 'use', 'place'].every((name) => (search.get(name) ?? '') === '');

function dispositionsFrom(search: URLSearchParams): Filter {
  const disposition = search.get('disposition') ?? '';
  if (dispositions.includes(disposition)) return { dispositions: [disposition as Disposition] };
  const place = search.get('place') ?? '';
  const aliveOnly = isHereOnly(search) || ((search.get('use') ?? '') === '' && place !== '');
  return aliveOnly ? { dispositions: alive } : {};
}

function placeFrom(search: URLSearchParams, anywhere: boolean): Filter {
  if (isHereOnly(search)) return anywhere ? {} : { place: 'HERE' };
  const place = search.get('place') ?? '';
  return places.includes(place) ? { place: place as FishPlace } : {};
}

/**
 * The filter lives in the address, so that it can be kept, shared and gone back to. `anywhere`: by itself it asks for no place, for a
 * partner, to whom it may not be told.
 */
export function filterFrom(
  search: URLSearchParams,
  anywhere = false,
  day: string = today(),
): Filter {
  const text = search.get('text') ?? '';
  const line = search.get('line') ?? '';
  const sex = search.get('sex') ?? '';
  const use = search.get('use') ?? '';
  return {
    ...(text === '' ? {} : { text }),
    ...(line === '' ? {} : { lineIds: [line] }),
    ...(sexes.includes(sex) ? { sexes: [sex as Sex] } : {}),
    ...dispositionsFrom(search),
    ...placeFrom(search, anywhere),
    ...(use === 'yes' ? { inUse: true } : use === 'no' ? { inUse: false } : {}),
    ...agesFrom(search, day),
    ...evidenceFrom(search),
    ...(search.get('withdrawn') === 'yes' ? { includeWithdrawn: true } : {}),
  };
}

/** More is asked for than the list does by itself: its fish that are alive and here are told by two parts. */
export const isFiltered = (search: URLSearchParams): boolean =>
  Object.keys(filterFrom(search)).length > (isHereOnly(search) ? 2 : 0);

/** An address with these parts; an empty one leaves it. */
export function withParts(
  search: URLSearchParams,
  parts: Readonly<Record<string, string>>,
): URLSearchParams {
  const next = new URLSearchParams(search);
  for (const [name, value] of Object.entries(parts))
    if (value === '') next.delete(name);
    else next.set(name, value);
  return next;
}

export function sortFrom(search: URLSearchParams): ListSort<FishSortField> {
  const field = search.get('sort');
  if (field === null) return { field: 'HATCH_DATE', direction: 'DESC' };
  return {
    field: sortFields.includes(field) ? (field as FishSortField) : 'TAG',
    direction: search.get('order') === 'down' ? 'DESC' : 'ASC',
  };
}
