/**
 * Where a fish swims once this was decided: one that is placed leaves, one that is taken back is here again.
 *
 * @param place id of the person it swims with now, '' where that is not known
 * @param owner id of the person of this install, '' where that is not known yet
 */
export function placeAfter(decided: string, place: string, owner: string): string {
  if (decided === 'ELSEWHERE' || (decided === 'PLACED' && place === owner)) return '';
  if (decided !== 'PLACED' && place === '') return owner;
  return place;
}
