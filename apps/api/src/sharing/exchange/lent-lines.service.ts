import { createHash } from 'node:crypto';
import { buffer } from 'node:stream/consumers';
import { Injectable } from '@nestjs/common';
import { DataSource, type EntityManager } from 'typeorm';
import { actAs, asSystem } from '../../access/acting.js';
import type { GrantPart } from '../../access/grant.js';
import { Clock } from '../../clock/clock.js';
import { ownerAccount } from '../../accounts/known-accounts.js';
import { whenOthersWrite } from '../../database/when-others-write.js';
import { notFound } from '../../errors/request-error.js';
import { PhotoFiles } from '../../photo-files/photo-files.js';
import { seenWith } from '../../stock/seen-with.js';
import { grantsWithAncestors } from '../../stock/grant-rows.js';
import { namesOfPeople } from '../../stock/people-rows.js';
import { lineFileStream, type PhotoOnDisk } from '../line-file/write-line-file.js';
import { ownKeys } from '../own-keys.js';
import { sharedKinds, type ShareGroup } from '../share-fields.js';
import {
  SHARE_FORMAT,
  SHARE_VERSION,
  type SharedPerson,
  type ShareFile,
  shareFileText,
} from '../share-file.js';
import { photosOnDisk } from '../share-photos.js';
import type { SharedRecord } from '../share-record.js';
import { fishClaimedAs, selectLine } from '../share-selection.js';
import { nextCount } from '../share-stamps.js';
import { peopleIn, versionedRecords } from '../share-versioned.js';
import { versionsForFile } from '../share-versions.js';
import {
  type LentRecord,
  lentRecords,
  type LineRecords,
  type NamedAncestors,
  withoutMissing,
} from './lent-records.js';

/** For whom a line is lent. */
export interface Borrower {
  /** None of a partner who has no install of their own. */
  readonly installId: string | null;
  readonly personId: string;
  readonly name: string;
}

/** What of a line goes out to whoever is given its file. */
export interface ChosenParts {
  readonly parts: ReadonlySet<GrantPart>;
  readonly ancestorsNamed: boolean;
}

/** To whom besides this install, and with what of ancestors outside of the line. */
interface LentTo {
  readonly others: readonly SharedPerson[];
  readonly ancestorsWith: NamedAncestors | null;
}

/** A line as it goes to one partner. */
export interface LentLine {
  readonly file: ShareFile;
  /** Ids of its records, those that only stand in apart. */
  readonly given: ReadonlySet<string>;
  readonly photos: readonly PhotoOnDisk[];
  /** SHA-256 of what it says, whenever it is written. */
  readonly print: string;
}

const grouped = (lent: readonly LentRecord[]): LineRecords => {
  const groups = sharedKinds.map(({ group }): [ShareGroup, SharedRecord[]] => [group, []]);
  const records = Object.fromEntries(groups) as Record<ShareGroup, SharedRecord[]>;
  for (const { kind, record } of lent) records[kind.group].push(record);
  return records;
};

const printOf = (file: ShareFile): string =>
  createHash('sha256')
    .update(shareFileText({ ...file, exportedAt: '' }))
    .digest('hex');

/** Lines as partners are given them: what the grant gives, as the database itself shows it to them. */
@Injectable()
export class LentLinesService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly clock: Clock,
    private readonly photos: PhotoFiles,
  ) {}

  /** A line that was granted to a partner. */
  async lent(lineId: string, borrower: Borrower): Promise<LentLine> {
    const { personId: id, name } = borrower;
    const seen = await actAs({ kind: 'account', id, name, role: 'partner' }, () =>
      this.dataSource.transaction('REPEATABLE READ', (manager) => selectLine(manager, lineId)),
    );
    const { installId } = borrower;
    const others = installId === null ? [] : [{ id: installId, name }];
    return this.from(lineId, seen, others, await this.ancestorsFor(lineId, id));
  }

  /** Of which ancestors the names go out to somebody: none, or those that the owner sees, and nothing else of them. */
  private async ancestorsFor(lineId: string, personId: string): Promise<NamedAncestors | null> {
    const grants = await grantsWithAncestors(this.dataSource.manager, personId);
    const grant = grants.find((one) => one.lineId === lineId);
    const owner = grant === undefined ? null : await ownerAccount(this.dataSource);
    if (grant === undefined || owner === null) return null;
    const of = await actAs({ kind: 'account', ...owner }, () => this.seenOf(lineId));
    return { of, parts: null };
  }

  /** Ids of the fish and spawns that go with a line, of those that whoever asks sees. */
  private async seenOf(lineId: string): Promise<ReadonlySet<string>> {
    const own = await this.dataSource.transaction('REPEATABLE READ', (manager) =>
      selectLine(manager, lineId),
    );
    return new Set([...own.fish, ...own.spawns].map(({ id }) => id));
  }

  /** A line for whoever is given its file, with some parts of it, as somebody would see it who was granted those. */
  async chosen(lineId: string, { parts, ancestorsNamed }: ChosenParts): Promise<LentLine> {
    // Nobody names what they do not see themselves.
    const of = await this.seenOf(lineId);
    return asSystem('exchange', async () => {
      const seen = await seenWith(this.dataSource, lineId, parts, (manager) =>
        selectLine(manager, lineId),
      );
      return this.from(lineId, seen, [], ancestorsNamed ? { of, parts } : null);
    });
  }

  private async from(
    lineId: string,
    seen: LineRecords,
    others: readonly SharedPerson[],
    ancestorsWith: NamedAncestors | null,
  ): Promise<LentLine> {
    const { file, given } = await whenOthersWrite(() =>
      this.dataSource.transaction('REPEATABLE READ', (manager) =>
        this.fileOf(manager, lineId, seen, { others, ancestorsWith }),
      ),
    );
    const photos = await photosOnDisk(this.photos, file.records.photos);
    return { file, given, photos, print: printOf(file) };
  }

  private async fileOf(
    manager: EntityManager,
    lineId: string,
    seen: LineRecords,
    { others, ancestorsWith }: LentTo,
  ): Promise<Pick<LentLine, 'file' | 'given'>> {
    const owner = await ownerAccount(this.dataSource);
    if (owner === null) throw notFound('owner', 'of this install');
    const own = await nextCount(manager);
    const line = await selectLine(manager, lineId);
    const { fishClaims } = seen;
    const claimed = await fishClaimedAs(manager, { fish: line.fish, fishClaims });
    const whole = { ...line, fish: [...line.fish, ...claimed] };
    const versioned = await versionedRecords(manager, whole, own);
    const stateOf = new Map(versioned.map(({ record, state }) => [record.id, state]));
    const lent = lentRecords(whole, seen, lineId, ancestorsWith);
    const told = versionsForFile(
      lent.map(({ kind, record, missing }) => ({
        ...{ kind, record, state: withoutMissing(stateOf.get(record.id) ?? {}, missing) },
      })),
    );
    const records = grouped(lent);
    const visible = new Set(sharedKinds.flatMap(({ group }) => seen[group].map(({ id }) => id)));
    return {
      file: {
        ...{ format: SHARE_FORMAT, version: SHARE_VERSION, lineId, records, ...told, agreed: {} },
        exportedAt: this.clock.now().toISOString(),
        sender: { id: owner.id, name: owner.name },
        people: await namesOfPeople(manager, peopleIn(records)),
        // Nobody else's install is named: who else has the line is not theirs to know.
        installs: [{ id: own.install, name: owner.name }, ...others],
      },
      given: new Set(lent.map(({ record }) => record.id).filter((id) => visible.has(id))),
    };
  }

  /** The signed file for one install, without pictures. Memory: the file. */
  async bytesFor({ file }: LentLine, installId: string): Promise<Buffer> {
    const keys = await this.dataSource.transaction((manager) => ownKeys(manager));
    return buffer(
      lineFileStream(
        {
          ...{ madeAt: new Date(file.exportedAt), makerName: file.sender.name },
          ...{ madeFor: installId, records: shareFileText(file), page: null, photos: [] },
        },
        keys,
      ),
    );
  }
}
