import type { Stamp } from '@linewright/merging';
import type { Readable } from 'node:stream';
import { Injectable } from '@nestjs/common';
import { DataSource, type EntityManager } from 'typeorm';
import { Clock } from '../clock/clock.js';
import { whenOthersWrite } from '../database/when-others-write.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { besideTheLoop } from '../jobs/beside.js';
import { PhotoFiles } from '../photo-files/photo-files.js';
import { settleClaims } from '../stock/claim-settling.js';
import { settleHandOvers } from '../stock/hand-over-settling.js';
import { namesOfPeople, personHere } from '../stock/people-rows.js';
import { RecordStore } from '../stock/record-store.js';
import { claimsOf } from './claim-rule.js';
import { dealsOf } from './deal-rule.js';
import { handOversOf } from './hand-over-rule.js';
import { wordsOf } from './install-keys.js';
import { type LineFileRead, readLineFile } from './line-file/read-line-file.js';
import { ReceivedFiles } from './line-file/received-files.js';
import { lineFileStream } from './line-file/write-line-file.js';
import { type FileMaker, makerOf } from './makers.js';
import { ownKeys } from './own-keys.js';
import { keysKnown, partnerInstall } from './partners/partner-install-rows.js';
import { pageProgram } from './reading-program.js';
import { agreeOn } from './share-agreements.js';
import {
  SHARE_FORMAT,
  SHARE_VERSION,
  type ShareFile,
  shareFileText,
  type SharedPerson,
  STAMPED_VERSION,
} from './share-file.js';
import { installsKnown, keepInstalls } from './share-installs.js';
import { keepPhotos, photosAway, photosOnDisk } from './share-photos.js';
import type { SharePlanItem } from './share-plan.js';
import { type KeptOut, planShare } from './share-planning.js';
import { refuseClashes, type ShareReport, shareReport } from './share-report.js';
import type { LatestMoment } from './share-rules.js';
import type { ShareGroup } from './share-fields.js';
import { claimsWithFish, selectLine } from './share-selection.js';
import { countToCome, nextCount, useCount } from './share-stamps.js';
import { peopleIn, versionedRecords } from './share-versioned.js';
import { versionsForFile } from './share-versions.js';
import { expectSoundPedigree, keepMet, writePlan } from './share-writing.js';

/** What is wished for in a file that is given by hand. */
export interface GivenWith {
  readonly photos: boolean;
  readonly carePlans: boolean;
  /** What the owner paid, asked and got for fish. */
  readonly prices: boolean;
}

/** A report of a file, and who made it. */
export interface ReadReport extends ShareReport {
  readonly maker: FileMaker;
  /** When it was written here; all that it changed bears this moment in the history. */
  readonly writtenAt: Date | null;
}

/** With what a record of a picture is left out until the picture has come. */
export const PHOTO_WORD = 'picture, which is not in the file';

/** Lines out to a partner, and in from one. */
@Injectable()
export class ShareService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly clock: Clock,
    private readonly photos: PhotoFiles,
    private readonly received: ReceivedFiles,
    private readonly records: RecordStore,
  ) {}

  /** A line as a signed file for whoever is given it, as a stream of its bytes. */
  async lineFile(lineId: string, sender: SignedInPerson, wished: GivenWith): Promise<Readable> {
    const keys = await this.dataSource.transaction((manager) => ownKeys(manager));
    const file = await this.exportLine(lineId, sender, wished);
    const [page, photos] = await Promise.all([
      besideTheLoop(pageProgram, file, wordsOf(keys)),
      photosOnDisk(this.photos, file.records.photos),
    ]);
    const records = shareFileText(file);
    const madeAt = new Date(file.exportedAt);
    const made = { madeAt, makerName: sender.name, madeFor: null };
    return lineFileStream({ ...made, records, page, photos }, keys);
  }

  /** One line with all it needs, and the versions of every record; what was changed since the last time is counted as changed here. */
  private exportLine(
    lineId: string,
    sender: SignedInPerson,
    wished: GivenWith,
  ): Promise<ShareFile> {
    return whenOthersWrite(() =>
      this.dataSource.transaction('REPEATABLE READ', async (manager) => {
        const own = await nextCount(manager);
        const all = await selectLine(manager, lineId);
        const here = await personHere(manager);
        const records = {
          ...all,
          ...(!wished.photos && { photos: [] }),
          ...(!wished.carePlans && { carePlans: [] }),
          fishClaims: claimsWithFish(all),
          // What others paid is not the owner's to tell.
          fishDeals: all.fishDeals.filter(({ personId }) => wished.prices && personId === here),
        };
        const versioned = await versionedRecords(manager, records, own);
        const told = versionsForFile(versioned);
        return {
          ...{ format: SHARE_FORMAT, version: SHARE_VERSION, lineId, records, ...told },
          exportedAt: this.clock.now().toISOString(),
          sender: { id: sender.id, name: sender.name },
          people: await namesOfPeople(manager, peopleIn(records)),
          installs: await this.installs(manager, own.install, sender, told.stamps),
          agreed: {},
        };
      }),
    );
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

  private latest(): LatestMoment {
    return { day: this.clock.latestDayAnywhere(), time: this.clock.latestTime() };
  }

  /** What taking a file in that was sent would do. Writes nothing. */
  async preview(fileId: string): Promise<ReadReport> {
    const read = await readLineFile(await this.received.path(fileId));
    try {
      const { items, maker } = await this.look(read, () => null);
      return { ...shareReport(read.file, items, false), maker, writtenAt: null };
    } finally {
      read.close();
    }
  }

  /** Takes a file in that was sent: what both sides changed is listed and stays as it is here. */
  async accept(fileId: string, person: SignedInPerson): Promise<ReadReport> {
    const read = await readLineFile(await this.received.path(fileId));
    try {
      const report = await this.take(read, person.name, () => null);
      await this.received.remove(fileId);
      return report;
    } finally {
      read.close();
    }
  }

  private async look(
    { file, maker, madeFor, ...source }: LineFileRead,
    whyOut: KeptOut,
  ): Promise<{ items: SharePlanItem[]; maker: FileMaker }> {
    const without = await this.withoutPicture(file, source, whyOut);
    return this.dataSource.transaction('REPEATABLE READ', async (manager) => {
      const standing = await makerOf(manager, maker, madeFor);
      const own = await countToCome(manager);
      const sender = await this.senderOf(manager, maker);
      const theirs = await this.letIn(manager, file, sender, without);
      const items = await planShare(manager, file, own, this.latest(), theirs, sender);
      return { items, maker: standing };
    });
  }

  /** A record of a picture waits until its picture has come. */
  private async withoutPicture(
    { records }: ShareFile,
    source: Pick<LineFileRead, 'photos' | 'photo'>,
    whyOut: KeptOut,
  ): Promise<KeptOut> {
    const away = await photosAway(this.photos, records.photos, source);
    return (item) => {
      const isAway = item.kind.group === 'photos' && away.has(item.record['sha256'] as string);
      return isAway && item.record['withdrawnAt'] === null ? PHOTO_WORD : whyOut(item);
    };
  }

  /** Whose install signed a file, where it is paired with this one: of hand-overs and of fish handed on, only what is theirs to say is taken. */
  private async senderOf(
    manager: EntityManager,
    maker: LineFileRead['maker'],
  ): Promise<string | null> {
    const partner = maker === null ? null : await partnerInstall(manager, maker.install);
    return partner?.personId ?? null;
  }

  /** Of hand-overs and claims only what is the sender's to say. */
  private async letIn(
    manager: EntityManager,
    file: ShareFile,
    sender: string | null,
    whyOut: KeptOut,
  ): Promise<KeptOut> {
    const [here, known] = [await personHere(manager), await keysKnown(manager)];
    const voices = { sender, here };
    return handOversOf({ sender, known }, claimsOf(file, voices, dealsOf(voices, whyOut)));
  }

  /** Writes what a file brings, then does to fish what hand-overs and claims in it say; what of the file depends on that is looked at once more. */
  private async write(
    manager: EntityManager,
    { file }: LineFileRead,
    by: string,
    plan: () => Promise<SharePlanItem[]>,
  ): Promise<SharePlanItem[]> {
    const items = await plan();
    refuseClashes(file, items);
    await writePlan(manager, file, items, by);
    await keepMet(manager, items);
    if (!(await this.settle(manager, items, by))) return items;
    const again = await plan();
    refuseClashes(file, again);
    await writePlan(manager, file, again, by);
    await keepMet(manager, again);
    return items;
  }

  /** Does to fish what hand-overs and claims say that are new or changed. Answers whether anything was done. */
  private async settle(
    manager: EntityManager,
    items: readonly SharePlanItem[],
    by: string,
  ): Promise<boolean> {
    const written = (group: ShareGroup): string[] =>
      items.flatMap(({ kind, outcome, record }) =>
        kind.group === group && (outcome === 'added' || outcome === 'updated') ? [record.id] : [],
      );
    const done = { day: this.clock.today(), by, accountId: null };
    const { records } = this;
    const moved = await settleHandOvers(manager, records, written('handOvers'), done);
    const here = await personHere(manager);
    const united = await settleClaims(manager, records, written('fishClaims'), here, done);
    return moved || united;
  }

  /**
   * Takes in what was read, in one transaction.
   *
   * @param by who is named in the history
   * @param whyOut what is not taken in
   */
  async take(read: LineFileRead, by: string, whyOut: KeptOut): Promise<ReadReport> {
    const { file } = read;
    // Pictures come before their records; of a file that is refused, none is kept.
    if (read.photos.size > 0) {
      const { items } = await this.look(read, whyOut);
      refuseClashes(file, items);
      await keepPhotos(this.photos, items, read);
    }
    const without = await this.withoutPicture(file, read, whyOut);
    return this.dataSource.transaction(async (manager) => {
      // One file at a time, and no parent changed between the check and the end.
      await manager.query(`SELECT 1 FROM install_state WHERE id = 1 FOR UPDATE`);
      const maker = await makerOf(manager, read.maker, read.madeFor);
      const own = await nextCount(manager);
      const sender = await this.senderOf(manager, read.maker);
      const theirs = await this.letIn(manager, file, sender, without);
      const items = await this.write(manager, read, by, () =>
        planShare(manager, file, own, this.latest(), theirs, sender),
      );
      if (file.version < STAMPED_VERSION) await agreeOn(manager, items, new Date(file.exportedAt));
      await keepInstalls(manager, file.installs, own.install);
      // A copy of this install may have gone further: no count is given out twice.
      const seen = file.stamps.map((stamp) => stamp[own.install] ?? 0);
      await useCount(
        manager,
        seen.reduce((a, b) => Math.max(a, b), own.count),
      );
      await expectSoundPedigree(manager);
      const [{ now }] = (await manager.query('SELECT now() AS now')) as [{ now: Date }];
      return { ...shareReport(file, items, true), maker, writtenAt: now };
    });
  }
}
