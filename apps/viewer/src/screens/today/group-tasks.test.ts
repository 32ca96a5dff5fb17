import { HOUR } from '@linewright/care';
import { describe, expect, it } from 'vitest';
import type { CareTask } from '../../api/care.js';
import { bySpawn, byTime } from './group-tasks.js';

const now = Date.parse('2026-03-14T10:00:00Z');
const hours = (h: number): string => new Date(now + h * HOUR).toISOString();
const task = (
  id: string,
  state: CareTask['state'],
  day: string,
  to: number,
  spawn = 'A',
  width = 48,
): CareTask =>
  ({
    id,
    state,
    day,
    from: hours(to - width),
    to: hours(to),
    spawn: { id: spawn, tag: spawn },
    step: { id: id.split('.')[0] },
  }) as CareTask;

const tasks = [
  task('move', 'OVERDUE', '2026-03-14', -200),
  task('snails', 'OVERDUE', '2026-03-14', -30),
  task('late', 'OVERDUE', '2026-03-14', -3),
  task('dam_out', 'OVERDUE', '2026-03-14', -44, 'A', 6),
  task('soon', 'DUE', '2026-03-14', 5),
  task('tonight', 'UPCOMING', '2026-03-14', 9, 'B'),
  task('jar', 'DUE', '2026-03-14', 24 * 30),
  task('siphon.1', 'UPCOMING', '2026-03-15', 30),
  task('siphon.2', 'UPCOMING', '2026-03-16', 54),
];

describe('tasks in groups', () => {
  it('by time: each task once, what stays open for days apart', () => {
    const groups = byTime(tasks, '2026-03-14', now);
    expect(groups.map((g) => [g.key, g.tasks.map((t) => t.id)])).toEqual([
      ['now', ['dam_out', 'late', 'soon']],
      ['overdue', ['snails', 'move']],
      ['today', ['tonight']],
      ['2026-03-15', ['siphon.1']],
      ['2026-03-16', ['siphon.2']],
      ['open', ['jar']],
    ]);
  });

  it('by spawn: the one with something overdue first, a repeated step once', () => {
    const groups = bySpawn([...tasks].reverse().reverse());
    expect(groups.map((g) => [g.title, g.tasks.map((t) => t.id)])).toEqual([
      ['A', ['move', 'snails', 'late', 'dam_out', 'soon', 'jar', 'siphon.1']],
      ['B', ['tonight']],
    ]);
  });
});
