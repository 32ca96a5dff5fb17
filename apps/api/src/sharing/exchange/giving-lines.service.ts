import { readFile } from 'node:fs/promises';
import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { Clock } from '../../clock/clock.js';
import { besideTheLoop } from '../../jobs/beside.js';
import type { LineExchangeRow } from '../../stock/rows/line-exchange.entity.js';
import { sealingProgram } from '../reading-program.js';
import { type Between, noteLine, printOf } from './between.js';
import { lineName, pictureName } from './folder-files.js';
import { type LentLine, LentLinesService } from './lent-lines.service.js';

/** Lines out into a folder, sealed for the partner. */
@Injectable()
export class GivingLinesService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly clock: Clock,
    private readonly lines: LentLinesService,
  ) {}

  /**
   * Whether what was last written is what would be written now, and stands in the folder as it was written. What is found cut off or
   * missing is not.
   *
   * @param state of the records and the grant, as they are now
   */
  async stands({ ours, known }: Between, lineId: string, state: string): Promise<boolean> {
    const before = known.get(lineId);
    if (before === undefined || before.statePrint !== state) return false;
    for (const [name, bytes] of Object.entries(before.pictures))
      if ((await ours.size(name)) !== bytes) return false;
    return this.fileStands({ ours }, lineId, before);
  }

  /** Names of the files of a line that stands. */
  names({ known }: Between, lineId: string): string[] {
    return [lineName(lineId), ...Object.keys(known.get(lineId)?.pictures ?? {})];
  }

  /**
   * Writes what is not there as it should be.
   *
   * @returns names of the files that belong to the line
   */
  async give(between: Between, lent: LentLine, state: string): Promise<string[]> {
    const { row, known } = between;
    const { lineId } = lent.file;
    const before = known.get(lineId);
    const seal = (bytes: Uint8Array): Promise<Uint8Array> =>
      besideTheLoop(sealingProgram, bytes, row.readingKey);
    const pictures = await this.pictures(between, lent, seal, before?.pictures ?? {});
    const names = [lineName(lineId), ...Object.keys(pictures)];
    const said = { statePrint: state, pictures };
    const isSent =
      before !== undefined &&
      before.sentPrint === lent.print &&
      (await this.fileStands(between, lineId, before));
    if (isSent) {
      await noteLine(this.dataSource.manager, between, lineId, said);
      return names;
    }
    const sealed = await seal(await this.lines.bytesFor(lent, row.installId));
    await between.ours.write(lineName(lineId), sealed);
    await noteLine(this.dataSource.manager, between, lineId, {
      ...{ ...said, sentPrint: lent.print, sealedPrint: printOf(sealed) },
      sentAt: this.clock.now(),
    });
    return names;
  }

  private async pictures(
    { ours, row }: Between,
    { photos }: LentLine,
    seal: (bytes: Uint8Array) => Promise<Uint8Array>,
    before: Readonly<Record<string, number>>,
  ): Promise<Record<string, number>> {
    const written: Record<string, number> = {};
    for (const { path, sha256 } of photos) {
      const name = pictureName(sha256, row.installId);
      const there = await ours.size(name);
      if (there !== null && there === before[name]) {
        written[name] = there;
        continue;
      }
      const sealed = await seal(await readFile(path));
      await ours.write(name, sealed);
      written[name] = sealed.length;
    }
    return written;
  }

  private async fileStands(
    { ours }: Pick<Between, 'ours'>,
    lineId: string,
    { sealedPrint }: Pick<LineExchangeRow, 'sealedPrint'>,
  ): Promise<boolean> {
    if (sealedPrint === null) return false;
    const there = await ours.read(lineName(lineId));
    return there !== null && printOf(there) === sealedPrint;
  }
}
