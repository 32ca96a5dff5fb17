import type { Stamp } from '@linewright/merging';
import { Injectable } from '@nestjs/common';
import { DataSource, type EntityManager } from 'typeorm';
import { Clock } from '../clock/clock.js';
import { whenOthersWrite } from '../database/when-others-write.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { besideTheLoop } from '../jobs/beside.js';
import { namesOfPeople } from '../stock/people-rows.js';
import { readingProgram } from './reading-program.js';
import { agreementsOn, agreeOn } from './share-agreements.js';
import { sharedKinds, type ShareGroup } from './share-fields.js';
import {
  expectShareSize,
  readShareFile,
  SHARE_FORMAT,
  SHARE_VERSION,
  type ShareFile,
  type SharedPerson,
  STAMPED_VERSION,
} from './share-file.js';
import type { SharedRecord } from './share-record.js';
import { installsKnown, keepInstalls } from './share-installs.js';
import { planShare } from './share-planning.js';
import { refuseClashes, type ShareReport, shareReport } from './share-report.js';
import type { LatestMoment } from './share-rules.js';
import { selectLine } from './share-selection.js';
import {
  countToCome,
  keepStamps,
  nextCount,
  stampRowOf,
  stampRows,
  stateHere,
  unsettledOf,
  useCount,
} from './share-stamps.js';
import { type VersionedRecord, versionsForFile } from './share-versions.js';
import { expectSoundPedigree, keepMet, newStamps, writePlan } from './share-writing.js';

type LineRecords = Readonly<Record<ShareGroup, readonly SharedRecord[]>>;

/** Characters; a longer file is read in a thread. */
const LARGEST_READ_AT_ONCE = 200_000;

const peopleIn = (records: LineRecords): string[] => {
  const ids = sharedKinds.flatMap((kind) =>
    kind.fields
      .filter(({ pointsTo }) => pointsTo === 'people')
      .flatMap(({ name }) => records[kind.group].map((record) => record[name])),
  );
  return [...new Set(ids.filter((id) => id !== null))] as string[];
};

/** Lines out to a partner, and in from one. */
@Injectable()
export class ShareService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly clock: Clock,
  ) {}

  /** One line with all it needs, and the versions of every record; what was changed since the last time is counted as changed here. */
  exportLine(lineId: string, sender: SignedInPerson): Promise<ShareFile> {
    return whenOthersWrite(() =>
      this.dataSource.transaction('REPEATABLE READ', async (manager) => {
        const own = await nextCount(manager);
        const records = await selectLine(manager, lineId);
        const versioned = await this.versioned(manager, records, own);
        const told = versionsForFile(versioned);
        return {
          ...{ format: SHARE_FORMAT, version: SHARE_VERSION, lineId, records, ...told },
          exportedAt: this.clock.now().toISOString(),
          sender: { id: sender.id, name: sender.name },
          people: await namesOfPeople(manager, peopleIn(records)),
          installs: await this.installs(manager, own.install, sender, told.stamps),
          ...{ agreed: {}, grants: null, signature: null },
        };
      }),
    );
  }

  /** Stamps what was changed here since, and keeps that. */
  private async versioned(
    manager: EntityManager,
    records: LineRecords,
    own: Awaited<ReturnType<typeof nextCount>>,
  ): Promise<VersionedRecord[]> {
    const ids = sharedKinds.flatMap(({ group }) => records[group].map(({ id }) => id));
    const [kept, agreed] = [await stampRows(manager, ids), await agreementsOn(manager, ids)];
    const versioned = sharedKinds.flatMap((kind) =>
      records[kind.group].map((record) => {
        const hash = agreed.get(record.id)?.hash;
        return { kind, record, state: stateHere(kind, record, kept.get(record.id), hash, own) };
      }),
    );
    const rows = newStamps(
      versioned.map(({ kind, record, state }) =>
        stampRowOf(kind, record, state, unsettledOf(state)),
      ),
      kept,
    );
    await keepStamps(manager, rows);
    if (rows.length > 0) await useCount(manager, own.count);
    return versioned;
  }

  private async installs(
    manager: EntityManager,
    own: string,
    sender: SharedPerson,
    stamps: readonly Stamp[],
  ): Promise<ShareFile['installs']> {
    const named = new Set(stamps.flatMap((stamp) => Object.keys(stamp)));
    const others = await installsKnown(manager, [...named]);
    return [{ id: own, name: sender.name }, ...others.filter(({ id }) => id !== own)];
  }

  private async read(text: string): Promise<ShareFile> {
    if (text.length <= LARGEST_READ_AT_ONCE) return readShareFile(text);
    expectShareSize(text);
    return besideTheLoop(readingProgram, text);
  }

  private latest(): LatestMoment {
    return { day: this.clock.latestDayAnywhere(), time: this.clock.latestTime() };
  }

  /** What taking the file in would do. Writes nothing. */
  async preview(text: string): Promise<ShareReport> {
    const file = await this.read(text);
    return this.dataSource.transaction('REPEATABLE READ', async (manager) => {
      const own = await countToCome(manager);
      return shareReport(file, await planShare(manager, file, own, this.latest()), false);
    });
  }

  /** Takes the file in, in one transaction: what both sides changed is listed and stays as it is here. */
  async accept(text: string, person: SignedInPerson): Promise<ShareReport> {
    const file = await this.read(text);
    return this.dataSource.transaction(async (manager) => {
      // One file at a time, and no parent changed between the check and the end.
      await manager.query(`SELECT 1 FROM install_state WHERE id = 1 FOR UPDATE`);
      const own = await nextCount(manager);
      const items = await planShare(manager, file, own, this.latest());
      refuseClashes(file, items);
      await writePlan(manager, file, items, person.name);
      if (file.version < STAMPED_VERSION) await agreeOn(manager, items, new Date(file.exportedAt));
      await keepMet(manager, items);
      await keepInstalls(manager, file.installs, own.install);
      // A copy of this install may have gone further: no count is given out twice.
      const seen = file.stamps.map((stamp) => stamp[own.install] ?? 0);
      await useCount(
        manager,
        seen.reduce((a, b) => Math.max(a, b), own.count),
      );
      await expectSoundPedigree(manager);
      return shareReport(file, items, true);
    });
  }
}
