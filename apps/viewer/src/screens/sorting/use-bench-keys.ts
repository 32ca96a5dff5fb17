import { useEffect, useRef, useState } from 'react';
import type { Disposition, Sex } from '../../wording/words.js';
import { decisions } from './decisions.js';

export interface BenchKeys {
  decide: (disposition: Disposition) => void;
  move: (step: number) => void;
  undo: () => void;
  setSex: (sex: Sex) => void;
  pick: (number: number) => void;
  score: () => void;
  escape: () => void;
  sexes: readonly { sex: Sex; key: string }[];
}

const takesText = (target: EventTarget | null): boolean =>
  target instanceof HTMLElement &&
  target.closest('input, select, textarea, [role=dialog]') !== null;

const KEPT = 'linewright-bench-keys';

/** Single keys can be switched off, for those who speak to their device; kept on it. */
export function useKeysOn(): [boolean, (on: boolean) => void] {
  const [on, setOn] = useState(() => {
    try {
      return localStorage.getItem(KEPT) !== 'off';
    } catch {
      return true;
    }
  });
  const choose = (next: boolean) => {
    setOn(next);
    try {
      localStorage.setItem(KEPT, next ? 'on' : 'off');
    } catch {
      // Chosen for this visit, then.
    }
  };
  return [on, choose];
}

/** Keys for the whole screen, so that no fish has to be focused first; none while something is typed. */
export function useBenchKeys(keys: BenchKeys, keysOn: boolean): void {
  const latest = useRef(keys);
  useEffect(() => {
    latest.current = keys;
  });
  useEffect(() => {
    if (!keysOn) return;
    const onKey = (event: KeyboardEvent) => {
      if (event.ctrlKey || event.metaKey || event.altKey || takesText(event.target)) return;
      if (document.querySelector('[role=dialog]') !== null) return;
      const { decide, move, undo, setSex, pick, score, escape, sexes } = latest.current;
      const key = event.key.toLowerCase();
      const decision = decisions.find((each) => each.key === key);
      const sex = sexes.find((each) => each.key === key);
      if (decision !== undefined) decide(decision.disposition);
      else if (sex !== undefined) setSex(sex.sex);
      else if (/^[1-9]$/.test(key)) pick(Number(key));
      else if (key === 'arrowright') move(1);
      else if (key === 'arrowleft') move(-1);
      else if (key === 'u') undo();
      else if (key === 's') score();
      else if (key === 'escape') escape();
      else return;
      event.preventDefault();
    };
    document.addEventListener('keydown', onKey);
    return () => document.removeEventListener('keydown', onKey);
  }, [keysOn]);
}
