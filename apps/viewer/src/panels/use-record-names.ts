import { useMemo } from 'react';
import { LINE_CHOICES } from '../api/lines.js';
import { KEEPERS } from '../api/session.js';
import { useRead } from '../api/use-read.js';
import type { RecordNames } from './change-words.js';

/** Lines by their code, and where a fish swims by the keeper. */
export function useRecordNames(): RecordNames {
  const lines = useRead(LINE_CHOICES, {}).data?.lines;
  const keepers = useRead(KEEPERS, {}).data?.keepers;
  return useMemo(
    () =>
      new Map([
        ...(lines ?? []).map(({ id, code }) => [id, code] as const),
        ...(keepers ?? []).map(({ id, name, here }) => [id, here ? 'here' : name] as const),
      ]),
    [lines, keepers],
  );
}
