import type { VariablesOf } from '../../api/graphql.js';
import type { FISH_LIST } from '../../api/fish.js';
import type { ListSort } from '../../components/virtual-list.js';
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

/** Neither a disposition nor a use nor a place was asked for: the list shows the fish that are alive and here. */
export const isHereOnly = (search: URLSearchParams): boolean =>
  ['disposition', 'use', 'place'].every((name) => (search.get(name) ?? '') === '');

/** The filter lives in the address, so that it can be kept, shared and gone back to. */
export function filterFrom(search: URLSearchParams): Filter {
  const text = search.get('text') ?? '';
  const line = search.get('line') ?? '';
  const sex = search.get('sex') ?? '';
  const disposition = search.get('disposition') ?? '';
  const use = search.get('use') ?? '';
  const place = search.get('place') ?? '';
  const here = isHereOnly(search);
  return {
    ...(text === '' ? {} : { text }),
    ...(line === '' ? {} : { lineIds: [line] }),
    ...(sexes.includes(sex) ? { sexes: [sex as Sex] } : {}),
    ...(dispositions.includes(disposition)
      ? { dispositions: [disposition as Disposition] }
      : here || (use === '' && place !== '')
        ? { dispositions: alive }
        : {}),
    ...(here
      ? { place: 'HERE' as const }
      : places.includes(place)
        ? { place: place as FishPlace }
        : {}),
    ...(use === 'yes' ? { inUse: true } : use === 'no' ? { inUse: false } : {}),
    ...(search.get('withdrawn') === 'yes' ? { includeWithdrawn: true } : {}),
  };
}

export function sortFrom(search: URLSearchParams): ListSort<FishSortField> {
  const field = search.get('sort');
  if (field === null) return { field: 'HATCH_DATE', direction: 'DESC' };
  return {
    field: sortFields.includes(field) ? (field as FishSortField) : 'TAG',
    direction: search.get('order') === 'down' ? 'DESC' : 'ASC',
  };
}
