import { DAY, HOUR, type CareRecord, carePlan, defaultTemplate } from '@linewright/care';
import ICAL from 'ical.js';
import { describe, expect, it } from 'vitest';
import type { SpawnPlan } from '../../apps/api/src/care/care-plans.service.js';
import { calendarFeed } from '../../apps/api/src/care/calendar-feed.js';

const now = Date.parse('2026-03-28T20:00:00Z');

const planOf = (n: number, records: readonly CareRecord[], template = defaultTemplate): SpawnPlan =>
  ({
    spawn: { id: `00000000-0000-4000-8000-${String(n).padStart(12, '0')}`, tag: `T26-${n}` },
    inUse: { template, row: null },
    log: [],
    plan: carePlan({ template, records, now }),
  }) as unknown as SpawnPlan;

const record = (step: string, hoursAgo: number): CareRecord => ({
  id: step,
  step,
  at: now - hoursAgo * HOUR,
});

const eventsOf = (text: string): ICAL.Event[] =>
  new ICAL.Component(ICAL.parse(text) as unknown[])
    .getAllSubcomponents('vevent')
    .map((component) => new ICAL.Event(component));

// Read through ical.js, which shares no code with what writes the file.
describe('the feed', () => {
  it('carries any words of a person’s plan whole (RFC 5545, 3.1 folding, 3.3.11 escaping)', () => {
    const title = 'Feed; siphon, "then" rest\\wait — größer als 5 µm 🐟🐟 '.repeat(4).trim();
    const why = 'First line, with a comma;\nsecond line: BEGIN:VEVENT\r\nthird';
    const template = {
      name: 'Own',
      steps: [
        {
          id: 'own_1',
          title,
          kind: 'do' as const,
          why,
          basis: { kind: 'own' as const },
          after: [{ after: 'spawned', hours: 5 }],
        },
      ],
    };
    const text = calendarFeed([planOf(1, [record('spawned', 1)], template)], new Date(now));
    for (const line of text.split('\r\n')) expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75);
    const [event, ...more] = eventsOf(text);
    expect(more).toEqual([]);
    expect(event?.summary).toBe(`T26-1: ${title}`);
    expect(event?.description.replaceAll('\r', '')).toContain(why.replaceAll('\r', ''));
    expect(event?.description).toContain('5 h after "spawned".');
  });

  it('holds a room full of spawns: every UID once, nothing beyond its horizon, daily care for ten days', () => {
    const plans = Array.from({ length: 60 }, (_, n) =>
      planOf(
        n,
        n % 2 === 0
          ? [record('spawned', (n * 7) % 200)]
          : [
              record('hatched', 100 + n),
              record('free_swimming', 70),
              record('first_food', 30),
              record('moved', 5),
            ],
      ),
    );
    const events = eventsOf(calendarFeed(plans, new Date(now)));
    expect(events.length).toBeGreaterThan(600);
    expect(new Set(events.map(({ uid }) => uid)).size).toBe(events.length);
    for (const { uid, startDate, endDate } of events) {
      const start = startDate.toJSDate().getTime();
      expect(startDate.zone.tzid).toBe('UTC');
      expect(endDate.toJSDate().getTime()).toBeGreaterThan(start);
      if (/siphoned|brine_shrimp_set\.[1-9]/.test(uid)) expect(start).toBeLessThan(now + 12 * DAY);
    }
  });

  it('keeps its hours over a change of clocks: the night of 29 March has 23 of them in Berlin', () => {
    const [hatch] = eventsOf(
      calendarFeed([planOf(1, [record('spawned', 20)])], new Date(now)),
    ).filter(({ uid }) => uid.includes('.hatched.'));
    expect(hatch?.startDate.toJSDate().getTime()).toBe(now + 28 * HOUR);
  });

  it('is a calendar without events when nothing is under way', () => {
    expect(eventsOf(calendarFeed([], new Date(now)))).toEqual([]);
  });
});
