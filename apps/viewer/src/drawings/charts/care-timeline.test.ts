import { DAY } from '@linewright/care';
import { createElement } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { CareTimeline, type TimelineRow } from './care-timeline.js';

const zero = Date.parse('2026-03-10T08:00:00Z');
const row = (more: Partial<TimelineRow>): TimelineRow => ({
  id: 'hatched',
  label: 'Look for hatching',
  happened: null,
  expected: { from: zero + DAY, about: zero + 2 * DAY, to: zero + 2.5 * DAY },
  loose: false,
  published: [],
  ...more,
});
const draw = (rows: readonly TimelineRow[]): string =>
  renderToStaticMarkup(
    createElement(CareTimeline, {
      rows,
      zero,
      zeroLabel: 'spawning',
      now: zero + 3 * DAY,
      range: [zero - 2 * DAY, zero + 9 * DAY] as const,
      timeText: (time: number) => new Date(time).toISOString(),
    }),
  );
const marks = (html: string) => ({
  windows: html.match(/<rect/g)?.length ?? 0,
  diamonds: html.match(/l 8 8 l -8 8/g)?.length ?? 0,
  brackets: html.match(/fill="none"/g)?.length ?? 0,
});

describe('CareTimeline', () => {
  it('draws the window, what happened, and each published figure', () => {
    const html = draw([
      row({
        happened: zero + 1.5 * DAY,
        published: [{ from: zero + 1.2 * DAY, to: zero + 1.3 * DAY }],
      }),
    ]);
    expect(marks(html)).toEqual({ windows: 1, diamonds: 1, brackets: 1 });
    expect(html).toContain('>now<');
    expect(html).toContain('Look for hatching');
  });

  it('leaves out what lies beyond its range, and dashes what may still move', () => {
    const far = { from: zero + 50 * DAY, about: zero + 51 * DAY, to: zero + 52 * DAY };
    expect(marks(draw([row({ expected: far, happened: zero - 9 * DAY })]))).toEqual({
      windows: 0,
      diamonds: 0,
      brackets: 0,
    });
    expect(draw([row({ loose: true })])).toContain('stroke-dasharray="4 3"');
    expect(draw([row({})])).not.toContain('stroke-dasharray="4 3"');
  });
});
