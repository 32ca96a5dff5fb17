import { useMemo } from 'react';
import { LINE_CHOICES } from '../api/lines.js';
import { PEOPLE } from '../api/people.js';
import { useRead } from '../api/use-read.js';
import type { RecordNames } from './change-words.js';

/** Lines by their code, and where a fish swims by the person's name. */
export function useRecordNames(): RecordNames {
  const lines = useRead(LINE_CHOICES, {}).data?.lines;
  const people = useRead(PEOPLE, {}).data?.people;
  return useMemo(
    () =>
      new Map([
        ...(lines ?? []).map(({ id, code }) => [id, code] as const),
        ...(people ?? []).map(({ id, name, here }) => [id, here ? 'here' : name] as const),
      ]),
    [lines, people],
  );
}
