import type { ReactNode } from 'react';
import { useNotShared } from '../session/not-shared.js';
import { partWord, type LinePart } from '../wording/words.js';
import { Empty } from './states.js';

/** In place of a part of a record that is empty: that it is not shared with whoever is signed in, or what to do about it. */
export function EmptyPart({ part, children }: { part: LinePart; children: ReactNode }) {
  return (
    <Empty>{useNotShared(part) ? `${partWord[part]} are not shared with you.` : children}</Empty>
  );
}
