import { useEffect, useRef, useState, type KeyboardEvent } from 'react';
import { useUnsaved } from '../../components/unsaved.js';
import type { Disposition } from '../../wording/words.js';
import type { BenchFish } from './bench-facts.js';
import type { BenchParts } from './bench-parts.js';
import { decisions } from './decisions.js';
import { rowStep } from './row-keys.js';
import { nothingScored } from './sheet-look.js';
import type { BenchPlaceKept } from './use-bench-place.js';

/** The reason that goes with each decision, until another is typed. */
function useListReason() {
  const [reason, setReason] = useState('');
  const [used, setUsed] = useState('');
  const [missing, setMissing] = useState(false);
  const input = useRef<HTMLInputElement>(null);
  // A reason stays for the next fish; once one has it, it is on record.
  useUnsaved(reason.trim() !== '' && reason.trim() !== used);
  /** The reason for this decision, '' where it has none; `null`: it needs one, which is asked for. */
  const reasonFor = (disposition: Disposition): string | null => {
    const why = reason.trim();
    const lacks = disposition === 'CULLED' && why === '';
    setMissing(lacks);
    if (lacks) {
      input.current?.focus();
      return null;
    }
    setUsed(why);
    return why;
  };
  return { reason, setReason, missing, input, reasonFor };
}

export type ListReason = ReturnType<typeof useListReason>;

/** Which row the person is at, kept as the place at the bench. */
function useRows(fish: readonly BenchFish[], place: BenchPlaceKept) {
  const [current, setCurrent] = useState(() => fish.findIndex(({ id }) => id === place.fishId));
  const body = useRef<HTMLTableSectionElement>(null);
  useEffect(() => {
    if (current > 0) body.current?.children[current]?.scrollIntoView({ block: 'center' });
    // Where the person was when the page was left, once.
    // eslint-disable-next-line react-hooks/exhaustive-deps
  }, []);
  return {
    ...{ body, current },
    focusRow: (index: number) => {
      const row = body.current?.children[index];
      if (row instanceof HTMLElement) row.focus();
    },
    onFocus: (index: number, each: BenchFish) => {
      setCurrent(index);
      place.goTo(each.id);
    },
  };
}

interface ListParts extends BenchParts {
  place: BenchPlaceKept;
}

/** The list of fish to sort: the row in reach, the reason, and what keys and buttons do. */
export function useSortingList({ bench, entries, say, place }: ListParts) {
  const { fish } = bench;
  const rows = useRows(fish, place);
  const reason = useListReason();
  const decide = (index: number, disposition: Disposition) => {
    const each = fish[index];
    const why = each === undefined ? null : reason.reasonFor(disposition);
    if (each === undefined || why === null) return;
    void entries.decide(each, disposition, why === '' ? null : why, nothingScored, null);
    say(`${each.tag}: ${decisions.find((one) => one.disposition === disposition)?.word ?? ''}`);
    rows.focusRow(Math.min(index + 1, fish.length - 1));
  };
  const onKey = (event: KeyboardEvent<HTMLTableRowElement>, index: number) => {
    // Typing a score must not decide.
    const step = event.target === event.currentTarget ? rowStep(event) : null;
    if (step === null) return;
    if (step === 'down') rows.focusRow(index + 1);
    else if (step === 'up') rows.focusRow(index - 1);
    else if (step === 'undo')
      void entries.undo().then((undone) => say(`Undone: ${undone?.label ?? 'nothing'}`));
    else decide(index, step.decide);
    event.preventDefault();
  };
  return { rows, reason, decide, onKey };
}

export type SortingListState = ReturnType<typeof useSortingList>;
