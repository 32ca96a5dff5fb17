import { plural } from '../../wording/figures.js';
import { MOST_CHOSEN } from './choice.js';

interface Told {
  chosen: number;
  /** Of them, how many the list shows as it is filtered; null while that is being asked. */
  inFilter: number | null;
  /** Meant too, but beyond the most. */
  beyond: number;
}

/** What the bar says of the choice: how many, which of them the filter hides, and what was left out. */
export function choiceWords({ chosen, inFilter, beyond }: Told): string {
  if (chosen === 0)
    return `No fish is chosen yet. Tick up to ${MOST_CHOSEN}; with Shift, a whole range.`;
  const hidden = inFilter === null ? 0 : chosen - inFilter;
  const parts = [
    `${plural(chosen, 'fish', 'fish')} chosen`,
    ...(hidden > 0
      ? [
          `, ${hidden === chosen ? 'none' : hidden} of them ${hidden === chosen ? '' : 'not '}in this list`,
        ]
      : []),
    '.',
    ...(beyond > 0
      ? [` ${beyond} more ${beyond === 1 ? 'is' : 'are'} not: ${MOST_CHOSEN} is the most at once.`]
      : []),
  ];
  return parts.join('');
}
