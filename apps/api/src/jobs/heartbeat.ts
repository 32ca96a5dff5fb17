import { AsyncResource } from 'node:async_hooks';
import type { DataSource } from 'typeorm';
import { rowsOf } from './rows-of.js';

const BEAT_MS = 400;
const BEAT = `
  UPDATE computation SET seen_at = now(), progress = greatest(progress, $2), result = coalesce($3::jsonb, result)
  WHERE id = $1 AND state = 'running' RETURNING stop_asked AS "stopAsked"`;

export interface HeartbeatOptions {
  readonly dataSource: DataSource;
  readonly id: string;
  /** Its stop was asked for, by whichever process, or its row is gone. */
  readonly onStop: () => void;
  readonly onError: (error: Error) => void;
}

export interface Heartbeat {
  /** How far it is, 0 to 1. The first share that says something is written at once: short work is seen at its middle, too. */
  readonly reached: (share: number) => void;
  /** The answer as it stands, written with the next beat. */
  readonly soFar: (answer: unknown) => void;
  /** No beat is on its way any more after this. */
  readonly end: () => Promise<void>;
}

/** Says in the records, some twice a second, that a computation is alive and how far it is, and hears whether it is to stop. */
export const heartbeat = ({ dataSource, id, onStop, onError }: HeartbeatOptions): Heartbeat => {
  let share = 0;
  let latest: string | null = null;
  let onItsWay: Promise<void> = Promise.resolve();
  // A thread's messages come for nobody, and an asker may not see this row: it is written for whom the beating was begun.
  const beat = AsyncResource.bind((): void => {
    onItsWay = onItsWay.then(async () => {
      try {
        const written = latest;
        latest = null;
        const [alive] = rowsOf<{ stopAsked: boolean }>(
          await dataSource.query(BEAT, [id, share, written]),
        );
        if (alive === undefined || alive.stopAsked) onStop();
      } catch (error) {
        onError(error as Error);
      }
    });
  });
  const timer = setInterval(beat, BEAT_MS);
  return {
    reached: (now) => {
      const first = share === 0 && now > 0;
      share = now;
      if (first) beat();
    },
    soFar: (answer) => {
      const first = latest === null && share === 0;
      latest = JSON.stringify(answer);
      if (first) beat();
    },
    end: async () => {
      clearInterval(timer);
      await onItsWay;
    },
  };
};
