import { CareError } from '../care-error.js';
import type { CareRecord, Instant } from './plan-shapes.js';
import { endings } from './template.js';

const byTime = (a: CareRecord, b: CareRecord): number =>
  a.at - b.at || (a.id < b.id ? -1 : a.id > b.id ? 1 : 0);

/** Records by step, each once and in order of time, whatever order they came in. */
export class RecordBook {
  private readonly byStep = new Map<string, CareRecord[]>();
  /** The first ending in time, if any. */
  readonly ended: { readonly by: string; readonly at: Instant } | null;

  constructor(records: readonly CareRecord[]) {
    const seen = new Set<string>();
    for (const record of records) {
      if (!Number.isFinite(record.at)) {
        throw new CareError(
          'CARE_BAD_EVENT',
          `Record "${record.id}" of step "${record.step}" has the time ${record.at}: give milliseconds since 1970.`,
          { id: record.id },
        );
      }
      if (seen.has(record.id)) continue;
      seen.add(record.id);
      const list = this.byStep.get(record.step);
      if (list === undefined) this.byStep.set(record.step, [record]);
      else list.push(record);
    }
    for (const list of this.byStep.values()) list.sort(byTime);
    const ends = endings
      .flatMap((step) => this.of(step))
      .filter((record) => record.action !== 'skipped')
      .sort(byTime);
    this.ended = ends[0] === undefined ? null : { by: ends[0].step, at: ends[0].at };
  }

  of(step: string): readonly CareRecord[] {
    return this.byStep.get(step) ?? [];
  }

  done(step: string): readonly CareRecord[] {
    return this.of(step).filter((record) => record.action !== 'skipped');
  }

  firstDone(step: string): CareRecord | undefined {
    return this.done(step)[0];
  }

  /** The earliest record of any of these. */
  firstOf(steps: readonly string[]): CareRecord | undefined {
    return steps
      .map((step) => this.firstDone(step))
      .filter((record) => record !== undefined)
      .sort(byTime)[0];
  }

  /** The latest record of any of these. */
  lastOf(steps: readonly string[]): CareRecord | undefined {
    return steps
      .flatMap((step) => this.done(step))
      .sort(byTime)
      .at(-1);
  }
}
