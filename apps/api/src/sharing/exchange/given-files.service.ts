import type { Readable } from 'node:stream';
import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { asSystem } from '../../access/acting.js';
import { accountWithId } from '../../accounts/known-accounts.js';
import { fieldError, notFound } from '../../errors/request-error.js';
import type { SignedInPerson } from '../../graphql/request-context.js';
import { besideTheLoop } from '../../jobs/beside.js';
import { lineGrants } from '../../stock/grant-rows.js';
import { wordsOf } from '../install-keys.js';
import { lineFileStream } from '../line-file/write-line-file.js';
import { ownKeys } from '../own-keys.js';
import { partnerInstalls } from '../partners/partner-install-rows.js';
import { pageProgram } from '../reading-program.js';
import { shareFileText } from '../share-file.js';
import { type ChosenParts, type LentLine, LentLinesService } from './lent-lines.service.js';

/** A line's file that is given by hand and holds a part of the line: what was granted to somebody, or what was chosen for anyone. */
@Injectable()
export class GivenFilesService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly lines: LentLinesService,
  ) {}

  /** For a partner: what was granted to them, as they see it. With an install of their own, no other one takes it. */
  async forPartner(lineId: string, personId: string, sender: SignedInPerson): Promise<Readable> {
    const account = await accountWithId(this.dataSource, personId);
    if (account === null || account.role !== 'partner') throw notFound('partner', personId);
    const grants = await lineGrants(this.dataSource.manager, lineId);
    if (!grants.some(({ accountId }) => accountId === personId))
      throw fieldError({
        field: 'for',
        message: `Nothing of this line is shared with ${account.name}: share it on the page of the line first, under “Partners who see it here”.`,
      });
    const install = (await partnerInstalls(this.dataSource.manager)).find(
      (row) => row.personId === personId && row.endedAt === null,
    );
    const { id, name } = account;
    const installId = install?.installId ?? null;
    const lent = await asSystem('exchange', () =>
      this.lines.lent(lineId, { personId: id, name, installId }),
    );
    return this.stream(lent, sender, installId);
  }

  /** For anyone: the parts that were chosen. */
  async forAnyone(lineId: string, chosen: ChosenParts, sender: SignedInPerson): Promise<Readable> {
    return this.stream(await this.lines.chosen(lineId, chosen), sender, null);
  }

  private async stream(
    { file, photos }: LentLine,
    sender: SignedInPerson,
    madeFor: string | null,
  ): Promise<Readable> {
    const keys = await this.dataSource.transaction((manager) => ownKeys(manager));
    const page = await besideTheLoop(pageProgram, file, wordsOf(keys));
    const made = { madeAt: new Date(file.exportedAt), makerName: sender.name, madeFor };
    return lineFileStream({ ...made, records: shareFileText(file), page, photos }, keys);
  }
}
