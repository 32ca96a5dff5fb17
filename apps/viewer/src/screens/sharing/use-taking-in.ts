import { useState } from 'react';
import { ACCEPT_SHARE, PREVIEW_SHARE, type ShareReport } from '../../api/sharing.js';
import { newId } from '../../api/new-id.js';
import type { Problem } from '../../api/problem.js';
import { sendLineFile } from '../../api/send-file.js';
import { useSave } from '../../api/use-save.js';

export interface TakingIn {
  /** What taking the file in would do, or did; null while no file was looked at. */
  readonly report: ShareReport | null;
  readonly looking: boolean;
  readonly accepting: boolean;
  /** Why the file was not read, and why it was not taken in. */
  readonly notRead: Problem | null;
  readonly notTaken: Problem | null;
  readonly look: (file: Blob) => Promise<void>;
  readonly accept: () => Promise<void>;
  readonly restart: () => void;
}

/** A partner's file: looked at first, then taken in as it was looked at. */
export function useTakingIn(onTaken: () => void): TakingIn {
  /** Under which it was sent. */
  const [sentId, setSentId] = useState<string | null>(null);
  const [sending, setSending] = useState(false);
  const [notSent, setNotSent] = useState<Problem | null>(null);
  const [report, setReport] = useState<ShareReport | null>(null);
  const looking = useSave(PREVIEW_SHARE);
  const accepting = useSave(ACCEPT_SHARE);
  return {
    report,
    looking: sending || looking.saving,
    accepting: accepting.saving,
    notRead: notSent ?? looking.problem,
    notTaken: accepting.problem,
    look: async (given) => {
      accepting.clear();
      looking.clear();
      const id = newId();
      setSending(true);
      const problem = await sendLineFile(id, given);
      setSending(false);
      setNotSent(problem);
      if (problem !== null) return;
      setSentId(id);
      const seen = await looking.save({ file: id });
      setReport(seen?.previewShare ?? null);
    },
    accept: async () => {
      if (sentId === null) return;
      const taken = await accepting.save({ file: sentId });
      if (taken === null) return;
      setReport(taken.acceptShare);
      onTaken();
    },
    restart: () => {
      setReport(null);
      setSentId(null);
    },
  };
}
