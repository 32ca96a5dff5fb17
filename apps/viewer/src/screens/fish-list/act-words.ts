import type { FishActPreview } from '../../api/fish-acts.js';
import { plural } from '../../wording/figures.js';
import type { ActKind } from './act-kind.js';
import type { Choice } from './choice.js';

/** Fish that would change; none while one stands in the way. */
export const changingIn = ({ fish, inTheWay }: Pick<FishActPreview, 'fish' | 'inTheWay'>): number =>
  inTheWay.length > 0 ? 0 : fish.filter(({ changes }) => changes.length > 0).length;

export function saveWords(kind: ActKind, count: number): string {
  const verb = kind === 'withdrawal' ? 'Withdraw' : 'Save';
  if (count === 0) return verb;
  return `${verb}${kind === 'withdrawal' ? '' : ' for'} ${plural(count, 'fish', 'fish')}`;
}

/** As many as are named; the rest are counted. */
const NAMED = 12;

export function namedFish(choice: Choice): string {
  const tags = choice.slice(0, NAMED).map(({ tag }) => tag);
  const more = choice.length - tags.length;
  return `${tags.join(', ')}${more > 0 ? ` and ${more} more` : ''}.`;
}
