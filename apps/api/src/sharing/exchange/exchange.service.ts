import { createHash } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { Injectable, Logger } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { asSystem } from '../../access/acting.js';
import { accountWithId } from '../../accounts/known-accounts.js';
import { Clock } from '../../clock/clock.js';
import { notFound, RequestError } from '../../errors/request-error.js';
import { besideTheLoop } from '../../jobs/beside.js';
import { lineGrants, putLineGrant } from '../../stock/grant-rows.js';
import type { LineGrantRow } from '../../stock/rows/line-grant.entity.js';
import type { LineExchangeRow } from '../../stock/rows/line-exchange.entity.js';
import type { PartnerInstallRow } from '../../stock/rows/partner-install.entity.js';
import type { InstallKeys } from '../install-keys.js';
import type { LineFileRead } from '../line-file/read-line-file.js';
import { ReceivedFiles } from '../line-file/received-files.js';
import { ownKeys } from '../own-keys.js';
import {
  changePartnerInstall,
  lineExchanges,
  partnerInstalls,
  putLineExchange,
} from '../partners/partner-install-rows.js';
import { PartnersService } from '../partners/partners.service.js';
import { sealingProgram } from '../reading-program.js';
import type { KeptOut } from '../share-planning.js';
import { PHOTO_WORD, type ReadReport, ShareService } from '../share.service.js';
import {
  FolderAway,
  FolderFiles,
  lineName,
  lineNamed,
  othersIn,
  pictureName,
} from './folder-files.js';
import { type Borrower, type LentLine, LentLinesService } from './lent-lines.service.js';
import { letIn } from './let-in.js';
import { PictureNotWhole, readFromFolder } from './read-folder.js';

/** Two installs and the folder between them, while it is looked into. */
interface Between {
  readonly row: PartnerInstallRow & { readonly folder: string };
  readonly borrower: Borrower;
  readonly keys: InstallKeys;
  readonly ours: FolderFiles;
  readonly theirs: FolderFiles;
  readonly known: ReadonlyMap<string, LineExchangeRow>;
}

const printOf = (bytes: Uint8Array): string => createHash('sha256').update(bytes).digest('hex');

const leftOutIn = ({ items }: ReadReport): string[] =>
  items.flatMap(({ changes }) =>
    changes[0]?.field === 'restsOn' ? [String(changes[0].after)] : [],
  );

/** Keeps lines in step with partners' installs, through a folder that both reach. */
@Injectable()
export class ExchangeService {
  private readonly log = new Logger('exchange');

  constructor(
    private readonly dataSource: DataSource,
    private readonly clock: Clock,
    private readonly partners: PartnersService,
    private readonly sharing: ShareService,
    private readonly lines: LentLinesService,
    private readonly received: ReceivedFiles,
  ) {}

  /** Every partner that a folder was set for, one after the other. */
  async all(): Promise<void> {
    const rows = await partnerInstalls(this.dataSource.manager);
    for (const { installId, folder, endedAt } of rows)
      if (folder !== null && endedAt === null) await this.now(installId);
  }

  /** Whether there is anything to look for now and then. */
  async isWanted(): Promise<boolean> {
    const rows = await partnerInstalls(this.dataSource.manager);
    return rows.some(({ folder, endedAt }) => folder !== null && endedAt === null);
  }

  /** Reads what came and writes what is granted; what hinders it is told with the partner. Nothing where another process is at it. */
  now(installId: string): Promise<void> {
    return asSystem('exchange', () =>
      this.alone(installId, async () => {
        const row = await this.partners.standing(installId);
        if (row.folder === null) return;
        const looked = await this.look({ ...row, folder: row.folder });
        await changePartnerInstall(this.dataSource.manager, installId, {
          ...{ lookedAt: this.clock.now(), ...looked },
        });
      }),
    );
  }

  /** Takes in a line that a partner offers, and grants it to them as a line to breed with, so that it stays in step. */
  async takeOffered(installId: string, lineId: string): Promise<void> {
    await asSystem('exchange', () =>
      this.alone(installId, async () => {
        const row = await this.partners.standing(installId);
        if (row.folder === null) throw notFound('folder for the partner', installId);
        const between = await this.between({ ...row, folder: row.folder });
        const sealed = await between.theirs.read(lineName(lineId));
        if (sealed === null) throw notFound('line in the folder', lineId);
        const report = await this.take(between, lineId, sealed, () => null);
        await this.noteTaken(between, lineId, sealed, report);
        const all = { scores: true, photos: true, notes: true, water: true, place: true };
        const accountId = row.personId;
        const granted = { accountId, lineId, level: 'breed' as const, ...all };
        await putLineGrant(this.dataSource.manager, { ...granted, grantedAt: this.clock.now() });
      }),
    );
    await this.now(installId);
  }

  private async look(
    row: PartnerInstallRow & { folder: string },
  ): Promise<Pick<PartnerInstallRow, 'problem' | 'strangers'>> {
    try {
      const between = await this.between(row);
      const grants = (await lineGrants(this.dataSource.manager, null)).filter(
        ({ accountId }) => accountId === row.personId,
      );
      await this.noteOffers(between, new Set(grants.map(({ lineId }) => lineId)));
      const wanted = new Set<string>();
      for (const grant of grants) await this.line(between, grant, wanted);
      await between.ours.keepOnly(wanted);
      const strangers = await othersIn(row.folder, row.installId, between.keys.install);
      return { problem: null, strangers };
    } catch (error) {
      if (error instanceof FolderAway) return { problem: error.message, strangers: row.strangers };
      this.log.error(`The exchange with ${row.installId} failed: ${String(error)}`);
      throw error;
    }
  }

  private async between(row: PartnerInstallRow & { folder: string }): Promise<Between> {
    const keys = await this.dataSource.transaction((manager) => ownKeys(manager));
    const account = await accountWithId(this.dataSource, row.personId);
    const exchanges = await lineExchanges(this.dataSource.manager, row.installId);
    const { installId, personId } = row;
    return {
      ...{ row, keys, borrower: { installId, personId, name: account?.name ?? '' } },
      ours: new FolderFiles(row.folder, keys.install, installId),
      theirs: new FolderFiles(row.folder, installId, keys.install),
      known: new Map(exchanges.map((exchange) => [exchange.lineId, exchange])),
    };
  }

  /** One line: theirs in, then ours out, with what came in. */
  private async line(between: Between, grant: LineGrantRow, wanted: Set<string>): Promise<void> {
    const { borrower } = between;
    let lent = await this.lines.lent(grant.lineId, borrower);
    if (await this.takeIn(between, grant, lent))
      lent = await this.lines.lent(grant.lineId, borrower);
    await this.giveOut(between, lent, wanted);
  }

  /** Whether anything of theirs was taken. */
  private async takeIn(between: Between, grant: LineGrantRow, lent: LentLine): Promise<boolean> {
    const { lineId, level } = grant;
    const sealed = await between.theirs.read(lineName(lineId));
    if (sealed === null) return false;
    if (between.known.get(lineId)?.readPrint === printOf(sealed)) return false;
    try {
      const persons = new Set([between.row.personId]);
      const report = await this.take(between, lineId, sealed, letIn(level, lent.given, persons));
      await this.noteTaken(between, lineId, sealed, report);
      return report.added + report.updated > 0;
    } catch (error) {
      if (!(error instanceof RequestError)) throw error;
      await this.note(between, lineId, { problem: error.message });
      return false;
    }
  }

  private async take(
    between: Between,
    lineId: string,
    sealed: Uint8Array,
    whyOut: KeptOut,
  ): Promise<ReadReport> {
    const { theirs, keys, row, borrower } = between;
    const notWhole = new Set<string>();
    const { received } = this;
    for (;;) {
      const from = { theirs, keys, received, notWhole, installId: row.installId };
      const read: LineFileRead = await readFromFolder(lineId, sealed, from);
      try {
        return await this.sharing.take(read, borrower.name, whyOut);
      } catch (error) {
        if (!(error instanceof PictureNotWhole)) throw error;
        notWhole.add(error.sha256);
      }
    }
  }

  private async noteTaken(
    between: Between,
    lineId: string,
    sealed: Uint8Array,
    report: ReadReport,
  ): Promise<void> {
    const left = leftOutIn(report);
    const photosWaiting = left.filter((word) => word === PHOTO_WORD).length;
    await this.note(between, lineId, {
      ...{ lineCode: report.lineCode, readAt: this.clock.now(), problem: null },
      // What waits for its picture is looked at again.
      readPrint: photosWaiting > 0 ? null : printOf(sealed),
      ...{ taken: report.added + report.updated, leftOut: left.length - photosWaiting },
      photosWaiting,
    });
  }

  private async giveOut(between: Between, lent: LentLine, wanted: Set<string>): Promise<void> {
    const { ours, borrower, row, known } = between;
    const { lineId } = lent.file;
    const there = new Set(await ours.names());
    const seal = (bytes: Uint8Array): Promise<Uint8Array> =>
      besideTheLoop(sealingProgram, bytes, row.readingKey);
    for (const { path, sha256 } of lent.photos) {
      const name = pictureName(sha256, row.installId);
      wanted.add(name);
      if (!there.has(name)) await ours.write(name, await seal(await readFile(path)));
    }
    wanted.add(lineName(lineId));
    const isSent = known.get(lineId)?.sentPrint === lent.print && there.has(lineName(lineId));
    if (isSent) return;
    await ours.write(lineName(lineId), await seal(await this.lines.bytesFor(lent, borrower)));
    await this.note(between, lineId, { sentPrint: lent.print, sentAt: this.clock.now() });
  }

  /** Lines of theirs that were not granted to them here: shown, and taken in only when somebody says so. */
  private async noteOffers(between: Between, granted: ReadonlySet<string>): Promise<void> {
    const offered = (await between.theirs.names()).flatMap((name) => lineNamed(name) ?? []);
    for (const lineId of offered) {
      const before = between.known.get(lineId);
      if (granted.has(lineId) || (before?.lineCode ?? null) !== null) continue;
      const sealed = await between.theirs.read(lineName(lineId));
      if (sealed === null) continue;
      const from = {
        ...{ theirs: between.theirs, keys: between.keys, received: this.received },
        ...{ notWhole: new Set<string>(), installId: between.row.installId },
      };
      try {
        const { file } = await readFromFolder(lineId, sealed, from);
        const line = file.records.lines.find(({ id }) => id === lineId);
        const lineCode = (line?.['code'] ?? null) as string | null;
        await this.note(between, lineId, { lineCode, problem: null });
      } catch (error) {
        if (!(error instanceof RequestError)) throw error;
        await this.note(between, lineId, { problem: error.message });
      }
    }
  }

  private note({ row }: Between, lineId: string, said: Partial<LineExchangeRow>): Promise<void> {
    return putLineExchange(this.dataSource.manager, { installId: row.installId, lineId, ...said });
  }

  /** One process at a time looks into a folder. */
  private async alone(installId: string, work: () => Promise<void>): Promise<void> {
    const runner = this.dataSource.createQueryRunner();
    try {
      const [row] = (await runner.query('SELECT pg_try_advisory_lock(hashtext($1)) AS got', [
        `exchange ${installId}`,
      ])) as { got: boolean }[];
      if (row?.got !== true) return;
      try {
        await work();
      } finally {
        await runner.query('SELECT pg_advisory_unlock(hashtext($1))', [`exchange ${installId}`]);
      }
    } finally {
      await runner.release();
    }
  }
}
