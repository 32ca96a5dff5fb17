import type { CareRecord, CareTemplate } from '@linewright/care';
import type { PairingRow } from '../stock/rows/pairing.entity.js';
import type { SpawnEventRow } from '../stock/rows/spawn-log.entity.js';
import type { SpawnRow } from '../stock/rows/spawn.entity.js';
import type { CareRecordRow } from '../stock/rows/care.entity.js';

/** A record of a spawn's log, with what is only for people to read. */
export interface LogRecord extends CareRecord {
  readonly note: string | null;
  /** 0 where it has no record of its own. */
  readonly revision: number;
  /** False where it is read off the spawn or its plan and has no record of its own. */
  readonly editable: boolean;
}

/** What a plan is made from. */
export interface LogSources {
  readonly spawn: SpawnRow;
  readonly events: readonly SpawnEventRow[];
  readonly records: readonly CareRecordRow[];
  readonly pairing: PairingRow | null;
  /** Whether young of it were counted or have records. */
  readonly hasYoung: boolean;
}

/** Without an hour, noon is the time least wrong. */
const noon = (day: string): number => Date.parse(`${day}T12:00:00Z`);

const eventWords: Readonly<Record<string, string>> = {
  decided: 'decided to pair',
  conditioning: 'conditioning begun',
  side_by_side: 'side by side',
  introduced: 'introduced',
  nest: 'nest built',
  released: 'dam released to sire',
  spawned: 'spawned',
  dam_out: 'dam taken out',
  eyed: 'eyed eggs',
  hatched: 'hatched',
  free_swimming: 'free-swimming',
  sire_out: 'sire taken out',
  first_food: 'first food',
  moved: 'fry moved',
  helpers: 'clean-up animals added',
  jarred: 'jarred',
  sorted: 'sorted',
  finished: 'last fry placed',
  failed: 'failed',
  note: 'note',
};

/** What happened, in words: for an event as it is spoken of, else as the template has it. */
export const stepWords = (template: CareTemplate, step: string): string =>
  eventWords[step] ??
  template.steps.find((each) => each.id === step)?.title ??
  step.replaceAll('_', ' ');

/** The spawn's log: its events, its care, and the days that stand on the spawn itself where no event tells them. */
export const logOf = ({
  spawn,
  events,
  records,
  pairing,
  hasYoung,
}: LogSources): readonly LogRecord[] => {
  const log: LogRecord[] = [
    ...events.map((row) => ({
      id: row.id,
      step: row.kind,
      at: row.at.getTime(),
      note: row.note,
      revision: row.revision,
      editable: true,
    })),
    ...records.map((row) => ({
      id: row.id,
      step: row.step,
      at: row.at.getTime(),
      action: row.action === 'skipped' ? ('skipped' as const) : ('done' as const),
      note: row.note,
      revision: row.revision,
      editable: true,
    })),
  ];
  const read = (step: string, at: number, note: string | null, dayOnly = false): void => {
    if (log.some((record) => record.step === step)) return;
    const id = `${spawn.id}:${step}`;
    log.push({ id, step, at, note, revision: 0, editable: false, ...(dayOnly && { dayOnly }) });
  };
  const asOnSpawn = 'day as on the spawn';
  if (spawn.spawnedOn !== null) read('spawned', noon(spawn.spawnedOn), asOnSpawn, true);
  if (spawn.hatchDate !== null) read('hatched', noon(spawn.hatchDate), asOnSpawn, true);
  if (spawn.failed) {
    const last = Math.max(...log.map((record) => record.at), -Infinity);
    read('failed', Number.isFinite(last) ? last : spawn.updatedAt.getTime(), spawn.failedReason);
  }
  const created = spawn.createdAt.getTime();
  if (pairing === null) {
    // Of a brood without any day the records were made later than all that the plan begins with.
    if (log.length === 0 && hasYoung) return log;
    const first = Math.min(...log.map((record) => record.at), created);
    read('decided', first, 'the day of its first record');
  } else {
    // The plan has its own day, whatever days of the spawn are corrected; a spawn is not recorded before it is decided on.
    const planned = noon(pairing.plannedOn);
    read('decided', Math.min(created, planned), pairing.reason, planned <= created);
  }
  // The decision comes before whatever was recorded first, at the same time.
  const place = (record: LogRecord): number => (record.step === 'decided' ? 0 : 1);
  return log.sort((a, b) => a.at - b.at || place(a) - place(b) || (a.id < b.id ? -1 : 1));
};
