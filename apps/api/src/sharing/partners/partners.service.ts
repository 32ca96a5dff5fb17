import { Inject, Injectable } from '@nestjs/common';
import { DataSource, type EntityManager } from 'typeorm';
import { InvitationsService } from '../../accounts/invitations.service.js';
import { Clock } from '../../clock/clock.js';
import { type Config } from '../../config/config.js';
import { CONFIG } from '../../config/config.token.js';
import { fieldError, notFound } from '../../errors/request-error.js';
import type { SignedInPerson } from '../../graphql/request-context.js';
import type { LineExchangeRow } from '../../stock/rows/line-exchange.entity.js';
import type { PartnerInstallRow } from '../../stock/rows/partner-install.entity.js';
import { installIdOf, wordsOf } from '../install-keys.js';
import { lookedInto } from '../exchange/one-at-a-time.js';
import { ownKeys, renewKeys } from '../own-keys.js';
import { expectFolder } from './exchange-folder.js';
import { readPairingCode, writePairingCode } from './pairing-code.js';
import {
  changePartnerInstall,
  lineExchanges,
  partnerInstall,
  partnerInstalls,
  putPartnerInstall,
} from './partner-install-rows.js';

export interface OwnInstall {
  readonly code: string;
  readonly words: readonly string[];
}

/** A partner's install with what went between the two. */
export interface PartnerInstall {
  readonly row: PartnerInstallRow;
  readonly words: readonly string[];
  readonly exchanges: readonly LineExchangeRow[];
  /** Whether its folder is being looked into now. */
  readonly underWay: boolean;
  readonly everyMinutes: number;
}

/** Installs of partners: paired once, their words compared, their keys taken back. */
@Injectable()
export class PartnersService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly invitations: InvitationsService,
    @Inject(CONFIG) private readonly config: Config,
    private readonly clock: Clock,
  ) {}

  /** What a partner is given of this install. */
  async own({ id, name }: SignedInPerson): Promise<OwnInstall> {
    const keys = await this.dataSource.transaction((manager) => ownKeys(manager));
    return { code: writePairingCode({ ...keys, personId: id, name }), words: wordsOf(keys) };
  }

  /** New keys: this install is another one to its partners, who pair with it again. */
  async renew(person: SignedInPerson): Promise<OwnInstall> {
    await this.dataSource.transaction((manager) => renewKeys(manager));
    return this.own(person);
  }

  async list(): Promise<PartnerInstall[]> {
    const { manager } = this.dataSource;
    const rows = await partnerInstalls(manager);
    const underWay = await lookedInto(
      this.dataSource,
      rows.map(({ installId }) => installId),
    );
    return Promise.all(
      rows.map((row) => this.withExchanges(manager, row, underWay.has(row.installId))),
    );
  }

  /**
   * Pairs this install with a partner's. Paired again after its key was taken back, it is trusted again.
   *
   * @param given under which the partner is known here; what they call themselves where it is empty
   * @throws RequestError `VALIDATION` for a code that is none or this install's own, and a name that somebody else has
   */
  async pair(text: string, given: string | null): Promise<PartnerInstall> {
    const code = readPairingCode(text);
    const installId = installIdOf(code);
    const own = await this.dataSource.transaction((manager) => ownKeys(manager));
    if (own.install === installId)
      throw fieldError({
        field: 'code',
        message:
          'This is the code of this install itself: paste the one from the partner’s screen.',
      });
    const known = await partnerInstall(this.dataSource.manager, installId);
    const name = given?.trim() ?? '';
    const personId = await this.invitations.partnerElsewhere(
      known?.personId ?? code.personId,
      name === '' ? code.name : name,
    );
    await putPartnerInstall(this.dataSource.manager, {
      ...{ installId, personId, signingKey: code.signingKey, readingKey: code.readingKey },
      ...{ pairedAt: this.clock.now(), comparedAt: null, endedAt: null, endedReason: null },
      ...{ problem: null, folder: null, refusedAt: null, refusedReason: null },
    });
    return this.one(installId);
  }

  /** Somebody read the words on both screens and found them alike. */
  async compared(installId: string): Promise<PartnerInstall> {
    await this.standing(installId);
    await this.change(installId, { comparedAt: this.clock.now() });
    return this.one(installId);
  }

  /** Takes the key back: nothing signed with it is taken from then on, and nothing is written for it. The folder stays set until they were told in it. */
  async end(installId: string, reason: string | null): Promise<PartnerInstall> {
    await this.standing(installId);
    const endedReason = (reason ?? '').trim() === '' ? null : (reason ?? '').trim();
    await this.change(installId, { endedAt: this.clock.now(), endedReason });
    return this.one(installId);
  }

  /** @throws RequestError `VALIDATION` for a folder that is none, or before the words were compared */
  async setFolder(installId: string, folder: string | null): Promise<PartnerInstall> {
    const { comparedAt } = await this.standing(installId);
    const given = (folder ?? '').trim();
    if (given !== '' && comparedAt === null)
      throw fieldError({
        field: 'folder',
        message:
          'Compare the words of the two installs first: then it is sure for whom it is sealed.',
      });
    const { dataDir, photosDir, backupDir } = this.config;
    const path = given === '' ? null : await expectFolder(given, [dataDir, photosDir, backupDir]);
    await this.change(installId, {
      ...{ folder: path, problem: null, lookedAt: null, strangers: [] },
      ...{ refusedAt: null, refusedReason: null },
    });
    return this.one(installId);
  }

  async one(installId: string): Promise<PartnerInstall> {
    const { manager } = this.dataSource;
    const row = await partnerInstall(manager, installId);
    if (row === null) throw notFound('partner’s install', installId);
    const underWay = await lookedInto(this.dataSource, [installId]);
    return this.withExchanges(manager, row, underWay.has(installId));
  }

  /** One whose key stands. */
  async standing(installId: string): Promise<PartnerInstallRow> {
    const row = await partnerInstall(this.dataSource.manager, installId);
    if (row !== null && row.endedAt === null) return row;
    throw notFound('partner’s install', installId);
  }

  private async withExchanges(
    manager: EntityManager,
    row: PartnerInstallRow,
    underWay: boolean,
  ): Promise<PartnerInstall> {
    const exchanges = await lineExchanges(manager, row.installId);
    const { exchangeMinutes: everyMinutes } = this.config;
    return { row, words: wordsOf(row), exchanges, underWay, everyMinutes };
  }

  private change(installId: string, changes: Partial<PartnerInstallRow>): Promise<void> {
    return changePartnerInstall(this.dataSource.manager, installId, changes);
  }
}
