import { CareError } from '../care-error.js';
import type { CareEntry, Instant } from './plan-shapes.js';
import { endings } from './template.js';

const byTime = (a: CareEntry, b: CareEntry): number =>
  a.at - b.at || (a.id < b.id ? -1 : a.id > b.id ? 1 : 0);

/** Entries by step, each once and in order of time, whatever order they came in. */
export class RecordBook {
  private readonly byStep = new Map<string, CareEntry[]>();
  /** The first ending in time, if any. */
  readonly ended: { readonly by: string; readonly at: Instant } | null;

  constructor(entries: readonly CareEntry[]) {
    const seen = new Set<string>();
    for (const entry of entries) {
      if (!Number.isFinite(entry.at)) {
        throw new CareError(
          'CARE_BAD_EVENT',
          `Entry "${entry.id}" of step "${entry.step}" has the time ${entry.at}: give milliseconds since 1970.`,
          { id: entry.id },
        );
      }
      if (seen.has(entry.id)) continue;
      seen.add(entry.id);
      const list = this.byStep.get(entry.step);
      if (list === undefined) this.byStep.set(entry.step, [entry]);
      else list.push(entry);
    }
    for (const list of this.byStep.values()) list.sort(byTime);
    const ends = endings
      .flatMap((step) => this.of(step))
      .filter((entry) => entry.action !== 'skipped')
      .sort(byTime);
    this.ended = ends[0] === undefined ? null : { by: ends[0].step, at: ends[0].at };
  }

  of(step: string): readonly CareEntry[] {
    return this.byStep.get(step) ?? [];
  }

  done(step: string): readonly CareEntry[] {
    return this.of(step).filter((entry) => entry.action !== 'skipped');
  }

  firstDone(step: string): CareEntry | undefined {
    return this.done(step)[0];
  }

  /** The earliest record of any of these. */
  firstOf(steps: readonly string[]): CareEntry | undefined {
    return steps
      .map((step) => this.firstDone(step))
      .filter((entry) => entry !== undefined)
      .sort(byTime)[0];
  }

  /** The latest record of any of these. */
  lastOf(steps: readonly string[]): CareEntry | undefined {
    return steps
      .flatMap((step) => this.done(step))
      .sort(byTime)
      .at(-1);
  }
}
