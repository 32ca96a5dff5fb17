import type { ReactNode } from 'react';
import type { Problem } from '../api/problem.js';

export const nothing = (): void => undefined;

/** What has to break or wrap wherever it stands. */
export const longWords =
  'Fadenfischzüchterversammlungsprotokoll of the third spawning of the second pair in the tall jar beside the window, looked at again on a rainy afternoon';

export const unreachable: Problem = {
  code: 'UNREACHABLE',
  message: 'Linewright does not answer at this address. What you typed is kept.',
  fields: [],
  reference: null,
};

export const severalFields: Problem = {
  code: 'BAD_INPUT',
  message: 'Give a tag. Give a day that is not in the future.',
  fields: [
    { field: 'tag', message: 'Give a tag.' },
    { field: 'hatchDate', message: 'Give a day that is not in the future.' },
  ],
  reference: null,
};

export const masked: Problem = {
  code: 'INTERNAL',
  message: 'Something failed in Linewright. Nothing was saved.',
  fields: [],
  reference: '7c0f-22a1',
};

/** For a state that draws nothing: that it does is seen from the dashes around it. */
export const emptyBox = (part: ReactNode): ReactNode => (
  <div style={{ minHeight: 12, border: '1px dashed var(--lw-edge)' }}>{part}</div>
);
