import { useEffect, useRef } from 'react';
import { useFormContext } from 'react-hook-form';
import { NEXT_TAGS } from '../api/founders.js';
import { useRead } from '../api/use-read.js';
import { useLineChoices } from './line-field.js';

/** Within a form with a field `lineId`: a book with one line alone begins with that line. */
export function useOnlyLine(): void {
  const { getValues, setValue } = useFormContext<{ lineId: string }>();
  const lines = useLineChoices();
  const only = lines.length === 1 ? (lines[0]?.value ?? '') : '';
  useEffect(() => {
    // Once, when the lines are known: who then chooses no line means it.
    if (only !== '' && getValues('lineId') === '') setValue('lineId', only);
  }, [only, getValues, setValue]);
}

/**
 * Within a form with the fields `tag` and `lineId`: puts the tag that follows in it, as the keeper numbers, as long as nothing else was
 * typed there. An offer: the save checks it.
 */
export function useOfferedTag(kind: 'FISH' | 'SPAWN'): void {
  const { watch, getValues, setValue } = useFormContext<{ tag: string; lineId: string }>();
  const offered = useRef('');
  useOnlyLine();
  const lineId = watch('lineId');
  const { data } = useRead(NEXT_TAGS, { kind, lineId: lineId === '' ? null : lineId, number: 1 });
  const next = data?.nextTags[0] ?? '';
  useEffect(() => {
    const tag = getValues('tag');
    if (tag !== '' && tag !== offered.current) return;
    offered.current = next;
    if (next !== tag) setValue('tag', next);
  }, [next, getValues, setValue]);
}
