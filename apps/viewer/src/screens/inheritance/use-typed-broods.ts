import { useDebouncedValue } from '@mantine/hooks';
import { useCallback, useState } from 'react';
import type { BroodOnRecord, LinkageBrood } from '../../api/inheritance.js';
import {
  blankBrood,
  broodsOf,
  changed,
  type TypedBrood,
  withBlank,
  without,
  withRecords,
} from './typed-broods.js';

export interface TypedBroods {
  readonly typed: readonly TypedBrood[];
  /** Those with young, once typing has paused: what is asked about. */
  readonly asked: LinkageBrood[];
  readonly take: (found: readonly BroodOnRecord[]) => void;
  readonly change: (key: number, part: Partial<TypedBrood>) => void;
  readonly add: () => void;
  /** Undefined for the only one. */
  readonly remove: ((key: number) => void) | undefined;
}

/** Broods as they are typed, one blank to begin with. */
export function useTypedBroods(): TypedBroods {
  const [typed, setTyped] = useState<readonly TypedBrood[]>([blankBrood(1)]);
  const [settled] = useDebouncedValue(typed, 300);
  // The same function at each drawing, so that what was changed by hand is not taken anew.
  const take = useCallback(
    (found: readonly BroodOnRecord[]) => setTyped((before) => withRecords(before, found)),
    [],
  );
  return {
    typed,
    asked: broodsOf(settled) ?? [],
    take,
    change: (key, part) => setTyped(changed(typed, key, part)),
    add: () => setTyped(withBlank(typed)),
    remove: typed.length > 1 ? (key) => setTyped(without(typed, key)) : undefined,
  };
}
