import { dayAfter } from '@linewright/care';
import { useCallback, useEffect, useMemo, useState } from 'react';
import { CARE_TASKS } from '../../api/care.js';
import { useRead } from '../../api/use-read.js';
import { now as clockNow, zoneHere } from '../../clock/clock.js';
import { dayOf } from '../../wording/figures.js';

const DAYS = 3;
const MORE_DAYS = 14;
const MINUTES_BETWEEN_READS = 5;

/** Does it every few minutes and when the page comes back into view; not while it is hidden. */
function useWhileShown(again: () => void): void {
  useEffect(() => {
    const unlessHidden = () => {
      if (document.visibilityState !== 'hidden') again();
    };
    const timer = setInterval(unlessHidden, MINUTES_BETWEEN_READS * 60_000);
    document.addEventListener('visibilitychange', unlessHidden);
    return () => {
      clearInterval(timer);
      document.removeEventListener('visibilitychange', unlessHidden);
    };
  }, [again]);
}

/** What is due from today on, as of a moment that goes on by itself; `more` shows two weeks, once. */
export function useDueTasks() {
  const [now, setNow] = useState(() => clockNow().getTime());
  const [days, setDays] = useState(DAYS);
  const today = dayOf(now);
  const variables = useMemo(
    () => ({ from: today, to: dayAfter(today, days), zone: zoneHere() }),
    [today, days],
  );
  const read = useRead(CARE_TASKS, variables);
  const { reload } = read;
  const again = useCallback(() => {
    setNow(clockNow().getTime());
    reload();
  }, [reload]);
  useWhileShown(again);
  return { read, now, today, days, more: days === DAYS ? () => setDays(MORE_DAYS) : null };
}
