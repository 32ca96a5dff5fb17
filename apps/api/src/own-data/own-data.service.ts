import { rm } from 'node:fs/promises';
import type { Readable } from 'node:stream';
import { finished } from 'node:stream/promises';
import { Injectable } from '@nestjs/common';
import { DataSource, type EntityManager } from 'typeorm';
import { asSystem } from '../access/acting.js';
import { BackupsService } from '../backup/backups.service.js';
import { Clock } from '../clock/clock.js';
import { fieldError, RequestError } from '../errors/request-error.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { PhotoFiles } from '../photo-files/photo-files.js';
import { ExchangeService } from '../sharing/exchange/exchange.service.js';
import { endInstall } from '../stock/own-data/end-install.js';
import {
  eraseAccount,
  eraseDoings,
  eraseName,
  heirsOf,
  othersHere,
  pseudonymFor,
  swapPeople,
} from '../stock/own-data/erase-account.js';
import { eraseRecords, type Leaving } from '../stock/own-data/erase-records.js';
import { eraseStamps } from '../stock/own-data/erase-stamps.js';
import { countOwnRows, ownPhotoFiles } from '../stock/own-data/own-rows.js';
import { Afterwards, type EraseOwnDataInput, type OwnDataModel } from './own-data.model.js';
import { ownDataFile } from './own-data-file.js';

/** Somebody's own data: told, taken out, and erased. */
@Injectable()
export class OwnDataService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly photos: PhotoFiles,
    private readonly backups: BackupsService,
    private readonly exchange: ExchangeService,
    private readonly clock: Clock,
  ) {}

  told(account: SignedInPerson): Promise<OwnDataModel> {
    this.expectThemselves(account);
    const { id, role } = account;
    return asSystem('own-data', async () => {
      const { manager } = this.dataSource;
      const counted = await countOwnRows(manager, id);
      const { paths, folders } = await this.backups.standing();
      const isOwner = role === 'owner';
      return {
        tables: counted.map(({ table: { title }, count: rows }) => ({ title, count: rows })),
        photos: (await ownPhotoFiles(manager, id)).length,
        pseudonym: await pseudonymFor(manager),
        backups: { count: paths.length, folders: isOwner ? folders : [] },
        heirs: isOwner ? await heirsOf(manager) : [],
        others: isOwner ? await othersHere(manager) : 0,
      };
    });
  }

  /** Everything of theirs as a ZIP file. */
  file(account: SignedInPerson): Promise<Readable> {
    this.expectThemselves(account);
    const { id, name, role } = account;
    return asSystem('own-data', async () => {
      const runner = this.dataSource.createQueryRunner();
      const done = async (): Promise<void> => {
        if (runner.isTransactionActive) await runner.rollbackTransaction();
        await runner.release();
      };
      try {
        const stream = await ownDataFile(runner, this.photos, { id, name, role }, this.clock.now());
        void finished(stream).then(done, done);
        return stream;
      } catch (error) {
        await done();
        throw error;
      }
    });
  }

  /**
   * Erases whoever asks, whose password was asked for before.
   *
   * @throws RequestError `VALIDATION` where the name is another, or it is not said what becomes of the install
   */
  async erase(account: SignedInPerson, input: EraseOwnDataInput): Promise<void> {
    this.expectThemselves(account);
    if (input.confirm.trim() !== account.name)
      throw fieldError({
        field: 'confirm',
        message: `Type your name as it stands here, "${account.name}".`,
      });
    await asSystem('own-data', () =>
      account.role === 'owner' ? this.ownerLeaves(account, input) : this.leaves(account),
    );
  }

  /** The owner looks at what a partner sees, not at what is recorded of them. */
  private expectThemselves({ looking, name }: SignedInPerson): void {
    if (looking !== true) return;
    throw new RequestError('NOT_ALLOWED', `What is recorded of ${name} is shown to them alone.`);
  }

  private async leaves({ id, name }: SignedInPerson): Promise<void> {
    await this.exchange.takeLeave(id);
    const pictures = await this.dataSource.transaction(async (manager) => {
      const person = await this.leaving(manager, { id, name });
      const erased = await eraseRecords(manager, person);
      await eraseStamps(manager, erased);
      await eraseAccount(manager, person);
      await eraseDoings(manager, person);
      await eraseName(manager, person);
      return erased.pictures;
    });
    await this.photos.remove(pictures);
  }

  private async ownerLeaves(owner: SignedInPerson, input: EraseOwnDataInput): Promise<void> {
    const { afterwards, heirId = null } = input;
    if (afterwards === Afterwards.END) return this.ends(input.withBackups === true);
    if (afterwards !== Afterwards.HAND_OVER)
      throw fieldError({
        field: 'afterwards',
        message:
          'Say what becomes of the install: hand it to somebody of the household, or end it.',
      });
    await this.dataSource.transaction(async (manager) => {
      const person = await this.leaving(manager, owner);
      const heir = (await heirsOf(manager)).find(({ id }) => id === heirId);
      if (heir === undefined)
        throw fieldError({
          field: 'heirId',
          message:
            'Choose somebody of the household who has signed in once: the install becomes theirs.',
        });
      const left = await swapPeople(manager, person, heir);
      await eraseAccount(manager, left);
      await eraseName(manager, left);
    });
  }

  /** Nobody writes records while somebody's are taken away. */
  private async leaving(
    manager: EntityManager,
    { id, name }: Pick<SignedInPerson, 'id' | 'name'>,
  ): Promise<Leaving> {
    await manager.query('SELECT 1 FROM install_state WHERE id = 1 FOR UPDATE');
    return { id, name, pseudonym: await pseudonymFor(manager) };
  }

  private async ends(withBackups: boolean): Promise<void> {
    await this.exchange.takeLeave(null);
    const { paths } = await this.backups.standing();
    await this.dataSource.transaction((manager) => endInstall(manager));
    await this.photos.removeAll();
    if (withBackups) for (const path of paths) await rm(path, { force: true });
  }
}
