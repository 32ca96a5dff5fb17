import { describe, expect, it } from 'vitest';
import type { Disposition } from '../wording/words.js';
import { revisionOf, type Entry, type NewEntry, type TheirFish } from './entry.js';
import { memoryStore } from './memory-store.js';
import { Outbox, undoable, type OutboxParts } from './outbox.js';
import type { Outcome } from './sender.js';
import { StoreError } from './store.js';

interface ServedFish {
  revision: number;
  disposition: Disposition;
}

const TODAY = '2026-11-25';

/** As the API: each entry applied once, decisions only on the revision that was seen. */
function server() {
  const fish = new Map<string, ServedFish>();
  const received = new Map<string, { subject: string; before: Disposition }>();
  const arrived: string[] = [];
  let answers: 'given' | 'lost' | 'none' = 'given';
  let signedIn = true;
  let mostAtOnce = 0;
  let atOnce = 0;
  const of = (id: string) => {
    const known = fish.get(id) ?? { revision: 1, disposition: 'UNSORTED' };
    fish.set(id, known);
    return known;
  };
  const theirs = (id: string): TheirFish => ({
    ...of(id),
    sex: 'UNSEXED',
    dispositionDate: null,
    dispositionReason: null,
    withdrawnReason: null,
  });
  const apply = (entry: Entry): Outcome => {
    const state = of(entry.subject);
    if (received.has(entry.id)) return { kind: 'applied', revisionAfter: state.revision };
    if (entry.kind === 'decision') {
      if (entry.input.on > TODAY)
        return { kind: 'refused', code: 'VALIDATION', message: 'no such day yet' };
      if (revisionOf(entry) !== state.revision) {
        const conflict = { code: 'CONFLICT_REVISION', message: 'changed meanwhile' };
        return { kind: 'conflict', ...conflict, theirs: theirs(entry.subject) };
      }
      received.set(entry.id, { subject: entry.subject, before: state.disposition });
      state.revision += 1;
      state.disposition = entry.input.disposition;
    } else if (entry.kind === 'undo') {
      const target = received.get(entry.input.undoes);
      if (target === undefined) return { kind: 'refused', code: 'NOT_FOUND', message: 'no entry' };
      received.set(entry.id, target);
      state.revision += 1;
      state.disposition = target.before;
    } else received.set(entry.id, { subject: entry.subject, before: state.disposition });
    arrived.push(entry.label);
    return { kind: 'applied', revisionAfter: state.revision };
  };
  return {
    of,
    arrived,
    mostAtOnce: () => mostAtOnce,
    answer: (how: 'given' | 'lost' | 'none') => (answers = how),
    signIn: (open: boolean) => (signedIn = open),
    send: async (entry: Entry): Promise<Outcome> => {
      if (answers === 'none') return { kind: 'unanswered', message: 'no connection' };
      if (!signedIn) return { kind: 'signed_out' };
      atOnce += 1;
      mostAtOnce = Math.max(mostAtOnce, atOnce);
      await new Promise((resolve) => setTimeout(resolve, 1));
      const outcome = apply(entry);
      atOnce -= 1;
      return answers === 'lost' ? { kind: 'unanswered', message: 'lost' } : outcome;
    },
  };
}

function oneAtATime(): OutboxParts['alone'] {
  let last: Promise<unknown> = Promise.resolve();
  return (work) => {
    const next = last.then(work);
    last = next.catch(() => undefined);
    return next;
  };
}

function device(send: OutboxParts['send'], store = memoryStore(), alone = oneAtATime()) {
  let reachable = true;
  const tab = () =>
    new Outbox({
      store,
      personId: 'keeper',
      send,
      alone,
      now: () => '2026-11-25T12:00:00Z',
      zone: () => 'Europe/Berlin',
      tellOthers: () => undefined,
      reachable: () => reachable,
    });
  return { tab, store, connect: (on: boolean) => (reachable = on) };
}

const decide = (
  subject: string,
  disposition: Disposition,
  revision = 1,
  on = TODAY,
): NewEntry<'decision'> => ({
  kind: 'decision',
  spawnId: 'spawn',
  subject,
  label: `${subject} ${disposition}`,
  input: { id: subject, disposition, on, revision },
});
const score = (subject: string, value: number): NewEntry => ({
  kind: 'scores',
  spawnId: 'spawn',
  subject,
  label: `${subject} ${value}`,
  input: { fishId: subject, scoredOn: TODAY, scores: [{ traitId: 'spread', value }] },
});

describe('the outbox', () => {
  it('sends in the order of entering, each entry once', async () => {
    const api = server();
    const outbox = device(api.send).tab();
    await outbox.enter(decide('a', 'KEEPER'), score('a', 170), decide('b', 'HOLD'));
    await outbox.enter(decide('c', 'CULLED'));
    expect(await outbox.send()).toBe('sent');
    expect(api.arrived).toEqual(['a KEEPER', 'a 170', 'b HOLD', 'c CULLED']);
    expect(outbox.current().entries).toEqual([]);
    expect(outbox.current().sent).toHaveLength(4);
  });

  it('keeps everything while nothing answers, and sends it once when something does', async () => {
    const api = server();
    const { tab, store } = device(api.send);
    api.answer('none');
    const outbox = tab();
    await outbox.enter(decide('a', 'KEEPER'), decide('b', 'HOLD'));
    expect(await outbox.send()).toBe('unanswered');
    expect((await store.read('keeper')).entries).toHaveLength(2);
    api.answer('given');
    const reloaded = tab();
    await reloaded.refresh();
    expect(reloaded.current().entries).toHaveLength(2);
    expect(await reloaded.send()).toBe('sent');
    expect(api.arrived).toEqual(['a KEEPER', 'b HOLD']);
  });

  it('applies once when the answer was lost', async () => {
    const api = server();
    const outbox = device(api.send).tab();
    api.answer('lost');
    await outbox.enter(decide('a', 'KEEPER'), decide('a', 'PLACED'));
    expect(await outbox.send()).toBe('unanswered');
    expect(outbox.current().entries).toHaveLength(2);
    api.answer('given');
    expect(await outbox.send()).toBe('sent');
    expect(api.arrived).toEqual(['a KEEPER', 'a PLACED']);
    expect(api.of('a')).toEqual({ revision: 3, disposition: 'PLACED' });
  });

  it('does not overwrite what another changed between a lost answer and the next entry', async () => {
    const api = server();
    const outbox = device(api.send).tab();
    api.answer('lost');
    await outbox.enter(decide('a', 'KEEPER'), decide('a', 'PLACED'));
    await outbox.send();
    Object.assign(api.of('a'), { revision: 3, disposition: 'DIED' });
    api.answer('given');
    await outbox.send();
    expect(api.of('a').disposition).toBe('DIED');
    expect(outbox.current().entries.map((entry) => entry.state)).toEqual(['conflict']);
  });

  it('puts a conflict aside with both versions, and sends the rest', async () => {
    const api = server();
    const { tab, connect } = device(api.send);
    const outbox = tab();
    connect(false);
    await outbox.enter(decide('a', 'KEEPER'), decide('a', 'PLACED'), score('a', 160));
    await outbox.enter(decide('b', 'HOLD'));
    Object.assign(api.of('a'), { revision: 2, disposition: 'DIED' });
    connect(true);
    expect(await outbox.send()).toBe('sent');
    expect(api.arrived).toEqual(['a 160', 'b HOLD']);
    const [conflict, behind] = outbox.current().entries;
    expect(conflict?.state).toBe('conflict');
    expect(conflict?.theirs?.disposition).toBe('DIED');
    expect(behind?.state).toBe('waiting');

    await outbox.takeMine(conflict?.id ?? '');
    expect(await outbox.send()).toBe('sent');
    expect(api.of('a')).toEqual({ revision: 4, disposition: 'PLACED' });
    expect(outbox.current().entries).toEqual([]);
  });

  it('takes the server’s version when told so, and nothing else is lost', async () => {
    const api = server();
    const { tab, connect } = device(api.send);
    const outbox = tab();
    connect(false);
    await outbox.enter(decide('a', 'KEEPER'), decide('b', 'HOLD'));
    Object.assign(api.of('a'), { revision: 2, disposition: 'DIED' });
    connect(true);
    await outbox.send();
    await outbox.letGo(outbox.current().entries[0]?.id ?? '');
    expect(outbox.current().entries).toEqual([]);
    expect(api.of('a').disposition).toBe('DIED');
    expect(api.of('b').disposition).toBe('HOLD');
  });

  it('keeps a refused entry, and never lets it block the rest', async () => {
    const api = server();
    const outbox = device(api.send).tab();
    await outbox.enter(decide('a', 'KEEPER', 1, '2026-11-26'), decide('b', 'HOLD'));
    expect(await outbox.send()).toBe('sent');
    expect(api.arrived).toEqual(['b HOLD']);
    expect(outbox.current().entries[0]?.problem?.message).toBe('no such day yet');
    await outbox.tryAgain(outbox.current().entries[0]?.id ?? '', { field: 'on', value: TODAY });
    await outbox.send();
    expect(api.of('a').disposition).toBe('KEEPER');
  });

  it('puts an entry aside after three faults of the server', async () => {
    const api = server();
    const outbox = device(async (entry) =>
      entry.subject === 'a' ? { kind: 'fault', message: 'broken' } : api.send(entry),
    ).tab();
    await outbox.enter(decide('a', 'KEEPER'), decide('b', 'HOLD'));
    await outbox.send();
    while ((await outbox.send()) === 'fault');
    expect(api.arrived).toEqual(['b HOLD']);
    expect(outbox.current().entries.map((entry) => [entry.subject, entry.state])).toEqual([
      ['a', 'refused'],
    ]);
  });

  it('waits for the person to sign in again', async () => {
    const api = server();
    const outbox = device(api.send).tab();
    api.signIn(false);
    await outbox.enter(decide('a', 'KEEPER'));
    expect(await outbox.send()).toBe('signed_out');
    api.signIn(true);
    expect(await outbox.send()).toBe('sent');
    expect(api.arrived).toEqual(['a KEEPER']);
  });

  it('sends from one of several tabs at a time, each entry once', async () => {
    const api = server();
    const shared = device(api.send);
    const tabs = [shared.tab(), shared.tab(), shared.tab()];
    await Promise.all(
      tabs.flatMap((tab, t) =>
        Array.from({ length: 10 }, (_, n) => tab.enter(decide(`${t}-${n}`, 'KEEPER'))),
      ),
    );
    await Promise.all(tabs.map((tab) => tab.send()));
    expect(api.mostAtOnce()).toBe(1);
    expect(api.arrived).toHaveLength(30);
    expect(new Set(api.arrived).size).toBe(30);
  });

  it('shows another person nothing of it, and sends nothing of it for them', async () => {
    const api = server();
    const shared = device(api.send);
    shared.connect(false);
    await shared.tab().enter(decide('a', 'KEEPER'));
    const other = new Outbox({
      store: shared.store,
      personId: 'another',
      send: api.send,
      alone: oneAtATime(),
      now: () => '',
      zone: () => 'UTC',
      tellOthers: () => undefined,
      reachable: () => true,
    });
    expect(await other.send()).toBe('sent');
    expect(other.current().entries).toEqual([]);
    expect(api.arrived).toEqual([]);
  });

  it('takes what was entered between a sending and the screen’s knowing of it as made on top', async () => {
    const api = server();
    const outbox = device(api.send).tab();
    await outbox.enter(decide('a', 'KEEPER'));
    await outbox.send();
    // The screen still shows revision 1.
    await outbox.enter(decide('a', 'PLACED', 1));
    expect(await outbox.send()).toBe('sent');
    expect(api.of('a')).toEqual({ revision: 3, disposition: 'PLACED' });
    // What others changed after it is a conflict all the same.
    api.of('a').revision += 1;
    await outbox.enter(decide('a', 'HOLD', 3));
    await outbox.send();
    expect(outbox.current().entries.map((entry) => entry.state)).toEqual(['conflict']);
  });

  it('goes on when the device’s own storage failed for a moment', async () => {
    const api = server();
    const store = memoryStore();
    let broken = false;
    const read: typeof store.read = async (personId) => {
      if (broken) throw new Error('the connection was closed');
      return store.read(personId);
    };
    const shared = device(api.send, { ...store, read });
    shared.connect(false);
    const outbox = shared.tab();
    await outbox.enter(decide('a', 'KEEPER'));
    shared.connect(true);
    broken = true;
    expect(await outbox.send()).toBe('device');
    expect(outbox.current()).toMatchObject({ sending: false, stopped: 'device' });
    broken = false;
    expect(await outbox.send()).toBe('sent');
    expect(api.arrived).toEqual(['a KEEPER']);
  });

  it('keeps sent entries until they were seen, however many, and the last sixty after that', async () => {
    const api = server();
    const { tab, store } = device(api.send);
    const outbox = tab();
    const all = Array.from({ length: 150 }, (_, n) => score(`f${n}`, n));
    await outbox.enter(...all);
    await outbox.send();
    expect((await store.read('keeper')).sent).toHaveLength(150);
    await outbox.seen(outbox.current().sent.map((entry) => entry.id));
    expect(outbox.current().sent).toHaveLength(60);
    expect(outbox.current().sent.at(-1)?.subject).toBe('f149');
  });

  it('sends all that was refused again at once', async () => {
    const api = server();
    let down = true;
    const { tab } = device(async (entry) =>
      down ? { kind: 'refused', code: 'INTERNAL', message: 'down' } : api.send(entry),
    );
    const outbox = tab();
    await outbox.enter(decide('a', 'KEEPER'), decide('b', 'HOLD'));
    await outbox.send();
    expect(outbox.current().entries.map((entry) => entry.state)).toEqual(['refused', 'refused']);
    down = false;
    await outbox.tryAllAgain();
    await outbox.send();
    expect(api.arrived).toEqual(['a KEEPER', 'b HOLD']);
  });

  it('says so when the device has no room, and keeps what it had', async () => {
    const api = server();
    const store = memoryStore();
    const full = {
      ...store,
      add: async () => {
        throw new StoreError('DEVICE_FULL', 'no room');
      },
    };
    const shared = device(api.send, store);
    shared.connect(false);
    await shared.tab().enter(decide('a', 'KEEPER'));
    const outbox = device(api.send, full).tab();
    await expect(outbox.enter(decide('b', 'HOLD'))).rejects.toThrow('no room');
    expect(outbox.current().entries.map((entry) => entry.subject)).toEqual(['a']);
  });
});

describe('undoing', () => {
  it('removes what never left, together with what was entered by the same tap', async () => {
    const api = server();
    const { tab, connect } = device(api.send);
    const outbox = tab();
    connect(false);
    await outbox.enter(decide('a', 'KEEPER'));
    await outbox.enter(score('b', 1), decide('b', 'CULLED'));
    expect((await outbox.undoLast('spawn'))?.label).toBe('b CULLED');
    expect(outbox.current().entries.map((entry) => entry.label)).toEqual(['a KEEPER']);
    connect(true);
    await outbox.send();
    expect(api.arrived).toEqual(['a KEEPER']);
  });

  it('takes back the last thing done at this bench, not at another', async () => {
    const api = server();
    const { tab, connect } = device(api.send);
    const outbox = tab();
    connect(false);
    await outbox.enter(decide('a', 'KEEPER'));
    await outbox.enter({ ...decide('z', 'CULLED'), spawnId: 'another' });
    expect((await outbox.undoLast('spawn'))?.label).toBe('a KEEPER');
    expect(await outbox.undoLast('spawn')).toBeNull();
    expect(outbox.current().entries.map((entry) => entry.label)).toEqual(['z CULLED']);
  });

  it('corrects what was sent, and what comes after still applies', async () => {
    const api = server();
    const outbox = device(api.send).tab();
    await outbox.enter(decide('a', 'CULLED'));
    await outbox.send();
    await outbox.undoLast('spawn');
    await outbox.send();
    expect(api.of('a')).toEqual({ revision: 3, disposition: 'UNSORTED' });
    expect(undoable(outbox.current())).toEqual([]);
    expect(await outbox.undoLast('spawn')).toBeNull();
  });

  it('sends the correction behind an entry whose answer was lost, and rebases the next decision', async () => {
    const api = server();
    const outbox = device(api.send).tab();
    api.answer('lost');
    await outbox.enter(decide('a', 'CULLED'));
    await outbox.send();
    await outbox.undoLast('spawn');
    await outbox.enter(decide('a', 'KEEPER', 1));
    api.answer('given');
    await outbox.send();
    expect(api.arrived).toEqual(['a CULLED', 'undo: a CULLED', 'a KEEPER']);
    expect(api.of('a')).toEqual({ revision: 4, disposition: 'KEEPER' });
  });

  it('drops both when the entry turns out to have been refused', async () => {
    const api = server();
    const outbox = device(api.send).tab();
    api.answer('none');
    await outbox.enter(decide('a', 'KEEPER', 1, '2026-11-26'));
    await outbox.send();
    await outbox.undoLast('spawn');
    expect(outbox.current().entries).toHaveLength(2);
    api.answer('given');
    expect(await outbox.send()).toBe('sent');
    expect(outbox.current().entries).toEqual([]);
    expect(api.arrived).toEqual([]);
  });
});
