import { useEffect, useEffectEvent, useState } from 'react';
import { AskingAgain } from './asking-again.js';
import type { Problem } from './problem.js';

/** Has a read asked again while the database is away; each answer brings a problem of its own, or none. */
export function useAskingAgain(problem: Problem | null, ask: () => void): void {
  const [asking] = useState(() => new AskingAgain());
  const latest = useEffectEvent(ask);
  useEffect(() => {
    asking.told(problem, () => latest());
    return () => asking.rest();
  }, [asking, problem]);
}
