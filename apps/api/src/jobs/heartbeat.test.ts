import type { DataSource } from 'typeorm';
import { describe, expect, it } from 'vitest';
import { actAs, asSystem, currentActor } from '../access/acting.js';
import { heartbeat } from './heartbeat.js';
import { paced } from './thread.js';

/** Takes beats down; answers the first of them only when let. */
const slowRecords = (answer: object[]) => {
  const written: number[] = [];
  let answered = (): void => undefined;
  const free = new Promise<void>((resolve) => (answered = resolve));
  const query = async (_sql: string, [, share]: [string, number]): Promise<[object[], number]> => {
    await free;
    written.push(share);
    return [answer, answer.length];
  };
  return { written, answered, dataSource: { query } as unknown as DataSource };
};

const options = { id: 'c', onStop: () => undefined, onError: () => undefined };

describe('the heartbeat of a computation', () => {
  it('writes the first share that says something at once, and ends after what it began to write', async () => {
    const { written, answered, dataSource } = slowRecords([{ stopAsked: false }]);
    const heart = heartbeat({ ...options, dataSource });
    heart.reached(0);
    heart.reached(0.3);
    heart.reached(0.4);
    const end = heart.end();
    expect(written).toEqual([]);
    answered();
    await end;
    expect(written).toEqual([0.4]);
  });

  it.each([
    ['its stop was asked for', [{ stopAsked: true }], true],
    ['its row is gone', [], true],
    ['nobody asked for its stop', [{ stopAsked: false }], false],
  ])('hears it when %s', async (_, answer, stopped) => {
    let heard = false;
    const { answered, dataSource } = slowRecords(answer);
    const heart = heartbeat({ ...options, dataSource, onStop: () => (heard = true) });
    heart.reached(0.5);
    answered();
    await heart.end();
    expect(heard).toBe(stopped);
  });

  it('tells an error and beats on', async () => {
    const errors: string[] = [];
    const dataSource = {
      query: () => Promise.reject(new Error('away')),
    } as unknown as DataSource;
    const heart = heartbeat({ ...options, dataSource, onError: (e) => errors.push(e.message) });
    heart.reached(0.5);
    await heart.end();
    expect(errors).toEqual(['away']);
  });

  it('beats for whom it was begun, whoever says how far the work is: a thread says so for nobody', async () => {
    const beaten: string[] = [];
    const dataSource = {
      query: () => Promise.resolve([[{ stopAsked: beaten.push(currentActor().kind) === 0 }], 1]),
    } as unknown as DataSource;
    const errors: string[] = [];
    const onError = (error: Error): void => void errors.push(error.message);
    const begin = () => asSystem('jobs', () => heartbeat({ ...options, dataSource, onError }));
    const [byNobody, byGuest] = [begin(), begin()];
    byNobody.reached(0.5);
    actAs({ kind: 'account', id: 'g', name: 'Guest', role: 'partner' }, () => byGuest.reached(0.5));
    await Promise.all([byNobody.end(), byGuest.end()]);
    expect(errors).toEqual([]);
    expect(beaten).toEqual(['system', 'system']);
  });
});

describe('the pace of what a thread tells', () => {
  it('lets the first share through that says something, however soon', () => {
    const told: number[] = [];
    const tell = paced((share) => told.push(share));
    [0, 0, 0.2, 0.4].forEach(tell);
    expect(told).toContain(0.2);
  });
});
