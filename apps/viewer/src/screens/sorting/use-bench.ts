import { useCallback, useEffect, useMemo, useRef, useState } from 'react';
import { useClient } from 'urql';
import { whileReading } from '../../api/asking-again.js';
import { BENCH } from '../../api/entries.js';
import { problemFrom, type Problem } from '../../api/problem.js';
import { useAskingAgain } from '../../api/use-asking-again.js';
import { now } from '../../clock/clock.js';
import { takeAlong, takenAlong, type TakenAlong } from '../../outbox/taken-along.js';
import type { Outbox, OutboxState } from '../../outbox/outbox.js';
import { useOutbox } from '../../outbox/use-outbox.js';
import { useSession } from '../../session/session-context.js';
import { benchOf, type Bench } from './bench-facts.js';

export interface ReadBench {
  readonly bench: Bench | null;
  /** When the server was last read for it. */
  readonly at: string | null;
  /** Whether the device has it for opening without a connection. */
  readonly kept: boolean;
  readonly problem: Problem | null;
  readonly reload: () => void;
}

interface Of {
  readonly personId: string;
  readonly spawnId: string;
}

/** What was taken along last: of the device at once, and of the server as its answers come. */
function useTaken({ personId, spawnId }: Of) {
  const [shown, setShown] = useState<{ taken: TakenAlong; reading: number } | null>(null);
  const [kept, setKept] = useState(false);
  const newer = useCallback((next: TakenAlong, reading: number) => {
    setShown((before) =>
      before === null || before.reading < reading ? { taken: next, reading } : before,
    );
  }, []);
  useEffect(() => {
    let wanted = true;
    void takenAlong(personId, spawnId).then((here) => {
      if (!wanted || here === null) return;
      setKept(true);
      newer(here, 0);
    });
    return () => {
      wanted = false;
    };
  }, [personId, spawnId, newer]);
  return { taken: shown?.taken ?? null, newer, kept, setKept };
}

/** What was settled before a reading is shown by it. */
async function tellSeen(outbox: Outbox, spawnId: string, settled: readonly string[]) {
  const ofSpawn = outbox.current().sent.filter((entry) => entry.spawnId === spawnId);
  const unseen = ofSpawn.filter(({ id, seen }) => seen !== true && settled.includes(id));
  if (unseen.length > 0) await outbox.seen(unseen.map(({ id }) => id));
}

/** Reads the bench from the server, and keeps it on the device. */
function useReading(of: Of, outbox: Outbox | undefined) {
  const { personId, spawnId } = of;
  const client = useClient();
  const { taken, newer, kept, setKept } = useTaken(of);
  const [problem, setProblem] = useState<Problem | null>(null);
  // Readings are told apart by a count and not by the clock, which may be set back at any time.
  const readings = useRef(0);
  const read = useCallback(async () => {
    if (outbox === undefined) return;
    const at = now().toISOString();
    const settled = outbox.current().sent.map((entry) => entry.id);
    readings.current += 1;
    const reading = readings.current;
    const { data, error } = await client
      .query(BENCH, { id: spawnId }, { requestPolicy: 'network-only' })
      .toPromise();
    if (error !== undefined) setProblem(whileReading(problemFrom(error)));
    if (data == null) return;
    setProblem(null);
    const next = { facts: data, at, settled };
    newer(next, reading);
    try {
      await takeAlong(personId, spawnId, next);
      setKept(true);
      await tellSeen(outbox, spawnId, settled);
    } catch {
      setKept(false);
    }
  }, [client, personId, newer, outbox, setKept, spawnId]);
  return { taken, kept, problem, read };
}

/** Read at first, when everything was sent, and when an entry turned out to need the person or was settled. */
function useReadingAgain(read: () => Promise<void>, entries: OutboxState['entries']): void {
  const unsettled = entries.filter((entry) => entry.state !== 'waiting').length;
  const idle = entries.length - unsettled === 0;
  const settled = `${idle} ${unsettled}`;
  const readFor = useRef(settled);
  useEffect(() => {
    if (readFor.current === settled) return;
    readFor.current = settled;
    if (idle) void read();
  }, [idle, settled, read]);
  useEffect(() => {
    const back = () => void read();
    void read();
    window.addEventListener('online', back);
    return () => window.removeEventListener('online', back);
  }, [read]);
}

/** The spawn's bench: from the device at once, from the server when it answers, and again after entries were sent. */
export function useBench(spawnId: string): ReadBench {
  const personId = useSession().person?.id ?? '';
  const { open, state } = useOutbox();
  const { taken, kept, problem, read } = useReading({ personId, spawnId }, open?.outbox);
  useReadingAgain(read, state.entries);
  useAskingAgain(problem, () => void read());
  const bench = useMemo(
    () => (taken === null || open === null ? null : benchOf(taken, state)),
    [taken, open, state],
  );
  return { bench, at: taken?.at ?? null, kept, problem, reload: () => void read() };
}
