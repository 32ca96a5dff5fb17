import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { Clock } from '../../clock/clock.js';
import { notFound, RequestError } from '../../errors/request-error.js';
import type { LineGrantRow } from '../../stock/rows/line-grant.entity.js';
import type { LineFileRead } from '../line-file/read-line-file.js';
import { ReceivedFiles } from '../line-file/received-files.js';
import { forgetLineExchange } from '../partners/partner-install-rows.js';
import { ERASED, type KeptOut } from '../share-planning.js';
import { PHOTO_WORD, type ReadReport, ShareService } from '../share.service.js';
import { type Between, noteLine, printOf } from './between.js';
import { lineName, lineNamed } from './folder-files.js';
import type { LentLine } from './lent-lines.service.js';
import { letIn } from './let-in.js';
import { PictureNotWhole, readFromFolder } from './read-folder.js';

const leftOutIn = ({ items }: ReadReport): string[] =>
  items
    .flatMap(({ changes }) => (changes[0]?.field === 'restsOn' ? [String(changes[0].after)] : []))
    .filter((word) => word !== ERASED);

/** A partner's lines in from a folder. */
@Injectable()
export class TakingLinesService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly clock: Clock,
    private readonly sharing: ShareService,
    private readonly received: ReceivedFiles,
  ) {}

  /** Their file of a line, where it is another one than was read last. */
  async newer({ theirs, known }: Between, lineId: string): Promise<Uint8Array | null> {
    const sealed = await theirs.read(lineName(lineId));
    if (sealed === null || known.get(lineId)?.readPrint === printOf(sealed)) return null;
    return sealed;
  }

  /** Takes in of a file what the grant lets in. Answers whether anything was. */
  async takeIn(
    between: Between,
    { lineId, level }: LineGrantRow,
    lent: LentLine,
    sealed: Uint8Array,
  ): Promise<boolean> {
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

  /** Takes in the whole of a line that they offer. */
  async takeOffered(between: Between, lineId: string): Promise<void> {
    const sealed = await between.theirs.read(lineName(lineId));
    if (sealed === null) throw notFound('line in the folder', lineId);
    const report = await this.take(between, lineId, sealed, () => null);
    await this.noteTaken(between, lineId, sealed, report);
  }

  /**
   * Lines of theirs that were not granted to them here: shown, and taken in only when somebody says so. What is neither granted nor offered
   * any more is not listed any longer.
   */
  async noteOffers(between: Between, granted: ReadonlySet<string>): Promise<void> {
    const offered = (await between.theirs.names()).flatMap((name) => lineNamed(name) ?? []);
    for (const lineId of between.known.keys())
      if (!granted.has(lineId) && !offered.includes(lineId))
        await forgetLineExchange(this.dataSource.manager, between.row.installId, lineId);
    for (const lineId of offered) {
      const before = between.known.get(lineId);
      if (granted.has(lineId) || (before?.lineCode ?? null) !== null) continue;
      const sealed = await between.theirs.read(lineName(lineId));
      if (sealed !== null) await this.noteOffer(between, lineId, sealed);
    }
  }

  private async noteOffer(between: Between, lineId: string, sealed: Uint8Array): Promise<void> {
    const { theirs, keys, row } = between;
    const from = {
      ...{ theirs, keys, received: this.received },
      ...{ notWhole: new Set<string>(), installId: row.installId },
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
      ...(report.added + report.updated > 0 && { cameAt: report.writtenAt }),
    });
  }

  private note(
    between: Between,
    lineId: string,
    said: Parameters<typeof noteLine>[3],
  ): Promise<void> {
    return noteLine(this.dataSource.manager, between, lineId, said);
  }
}
