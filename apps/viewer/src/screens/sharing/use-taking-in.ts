import { useState } from 'react';
import { ACCEPT_SHARE, PREVIEW_SHARE, type ShareReport } from '../../api/sharing.js';
import type { Problem } from '../../api/problem.js';
import { useSave } from '../../api/use-save.js';

export interface TakingIn {
  /** What taking the file in would do, or did; null while no file was looked at. */
  readonly report: ShareReport | null;
  readonly looking: boolean;
  readonly accepting: boolean;
  /** Why the file was not read, and why it was not taken in. */
  readonly notRead: Problem | null;
  readonly notTaken: Problem | null;
  readonly look: (text: string) => Promise<void>;
  readonly accept: () => Promise<void>;
  readonly restart: () => void;
}

/** A partner's file: looked at first, then taken in as it was looked at. */
export function useTakingIn(onTaken: () => void): TakingIn {
  const [text, setText] = useState<string | null>(null);
  const [report, setReport] = useState<ShareReport | null>(null);
  const looking = useSave(PREVIEW_SHARE);
  const accepting = useSave(ACCEPT_SHARE);
  return {
    report,
    looking: looking.saving,
    accepting: accepting.saving,
    notRead: looking.problem,
    notTaken: accepting.problem,
    look: async (given) => {
      setText(given);
      accepting.clear();
      const seen = await looking.save({ text: given });
      setReport(seen?.previewShare ?? null);
    },
    accept: async () => {
      if (text === null) return;
      const taken = await accepting.save({ text });
      if (taken === null) return;
      setReport(taken.acceptShare);
      onTaken();
    },
    restart: () => {
      setReport(null);
      setText(null);
    },
  };
}
