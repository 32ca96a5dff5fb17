import { useEffect, useState } from 'react';
import { today } from '../../wording/figures.js';

const A_MINUTE = 60_000;

/** The day of this device's clock, also when the bench stays open past midnight. */
export function useToday(): string {
  const [day, setDay] = useState(today);
  useEffect(() => {
    const look = () => setDay(today());
    const timer = setInterval(look, A_MINUTE);
    document.addEventListener('visibilitychange', look);
    return () => {
      clearInterval(timer);
      document.removeEventListener('visibilitychange', look);
    };
  }, []);
  return day;
}

/** A clock that was set back dates entries before the fish were there; the server would refuse them one by one. */
export const dayTrouble = (on: string, hatchDate: string | null): string | null =>
  hatchDate === null || on >= hatchDate
    ? null
    : `${on} is before these fish hatched (${hatchDate}). Set the date of the entries, and look at the clock of this device.`;
