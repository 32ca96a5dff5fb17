import { Injectable, Logger } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { asSystem } from '../../access/acting.js';
import { accountWithId } from '../../accounts/known-accounts.js';
import { Clock } from '../../clock/clock.js';
import { notFound } from '../../errors/request-error.js';
import { lineGrants, putLineGrant } from '../../stock/grant-rows.js';
import type { LineGrantRow } from '../../stock/rows/line-grant.entity.js';
import type { PartnerInstallRow } from '../../stock/rows/partner-install.entity.js';
import { sharedState } from '../../stock/shared-state.js';
import { ownKeys } from '../own-keys.js';
import {
  changePartnerInstall,
  lineExchanges,
  partnerInstall,
  partnerInstalls,
} from '../partners/partner-install-rows.js';
import { PartnersService } from '../partners/partners.service.js';
import { type Between, printOf, type WithFolder } from './between.js';
import { FolderAway, FolderFiles, NOTICE, othersIn } from './folder-files.js';
import { GivingLinesService } from './giving-lines.service.js';
import { readNotice, writeNotice } from './key-notice.js';
import { LentLinesService } from './lent-lines.service.js';
import { alone } from './one-at-a-time.js';
import { TakingLinesService } from './taking-lines.service.js';

type Found = Pick<PartnerInstallRow, 'problem' | 'strangers' | 'refusedAt' | 'refusedReason'>;

/** Keeps lines in step with partners' installs, through a folder that both reach. */
@Injectable()
export class ExchangeService {
  private readonly log = new Logger('exchange');

  constructor(
    private readonly dataSource: DataSource,
    private readonly clock: Clock,
    private readonly partners: PartnersService,
    private readonly lines: LentLinesService,
    private readonly giving: GivingLinesService,
    private readonly taking: TakingLinesService,
  ) {}

  /** Every partner that a folder was set for, one after the other. */
  async all(): Promise<void> {
    const rows = await partnerInstalls(this.dataSource.manager);
    for (const { installId, folder } of rows) if (folder !== null) await this.now(installId);
  }

  /** Whether there is anything to look for now and then. */
  async isWanted(): Promise<boolean> {
    const rows = await partnerInstalls(this.dataSource.manager);
    return rows.some(({ folder }) => folder !== null);
  }

  /**
   * Reads what came and writes what is granted; what hinders it is told with the partner. To a partner whose key was taken back it tells that.
   *
   * @returns false where another process, or another request, is at it
   */
  now(installId: string): Promise<boolean> {
    return asSystem('exchange', () =>
      alone(this.dataSource, installId, async () => {
        const row = await partnerInstall(this.dataSource.manager, installId);
        if (row === null) throw notFound('partner’s install', installId);
        if (row.folder === null) return;
        const withFolder = { ...row, folder: row.folder };
        if (row.endedAt !== null) return this.takeLeaveOf(withFolder, row.endedAt);
        const looked = await this.look(withFolder);
        await changePartnerInstall(this.dataSource.manager, installId, {
          ...{ lookedAt: this.clock.now(), ...looked },
        });
      }),
    );
  }

  /** Takes in a line that a partner offers, and grants it to them as a line to breed with, so that it stays in step. */
  async takeOffered(installId: string, lineId: string): Promise<boolean> {
    const done = await asSystem('exchange', () =>
      alone(this.dataSource, installId, async () => {
        const row = await this.partners.standing(installId);
        if (row.folder === null) throw notFound('folder for the partner', installId);
        const between = await this.between({ ...row, folder: row.folder });
        await this.taking.takeOffered(between, lineId);
        const all = {
          scores: true,
          photos: true,
          notes: true,
          water: true,
          place: true,
          // What was paid is shared by whoever paid, or not at all.
          prices: false,
          ancestors: false,
        };
        const accountId = row.personId;
        const granted = { accountId, lineId, level: 'breed' as const, ...all };
        await putLineGrant(this.dataSource.manager, { ...granted, grantedAt: this.clock.now() });
      }),
    );
    return done && (await this.now(installId));
  }

  /** Takes back the keys of a person's installs, or of all, and takes what was written for them out of their folders. */
  async takeLeave(personId: string | null): Promise<void> {
    const rows = await partnerInstalls(this.dataSource.manager);
    for (const row of rows) {
      if (personId !== null && row.personId !== personId) continue;
      if (row.endedAt === null) await this.partners.end(row.installId, null);
      await this.now(row.installId);
    }
  }

  private async look(row: WithFolder): Promise<Found> {
    const { strangers, refusedAt, refusedReason } = row;
    try {
      const between = await this.between(row);
      const refused = await this.refusal(between);
      if (refused === null) await this.lookAtLines(between);
      else await between.ours.keepOnly(new Set());
      return {
        problem: null,
        strangers: await othersIn(row.folder, row.installId, between.keys.install),
        ...(refused ?? { refusedAt: null, refusedReason: null }),
      };
    } catch (error) {
      if (error instanceof FolderAway)
        return { problem: error.message, strangers, refusedAt, refusedReason };
      this.log.error(`The exchange with ${row.installId} failed: ${String(error)}`);
      throw error;
    }
  }

  private async lookAtLines(between: Between): Promise<void> {
    const { manager } = this.dataSource;
    const grants = (await lineGrants(manager, null)).filter(
      ({ accountId }) => accountId === between.row.personId,
    );
    await this.taking.noteOffers(between, new Set(grants.map(({ lineId }) => lineId)));
    const wanted = new Set<string>();
    for (const grant of grants)
      for (const name of await this.line(between, grant)) wanted.add(name);
    await between.ours.keepOnly(wanted);
  }

  /** Whether they say that they took the key of this install back. */
  private async refusal({
    theirs,
    keys,
    row,
  }: Between): Promise<Pick<Found, 'refusedAt' | 'refusedReason'> | null> {
    const sealed = await theirs.read(NOTICE);
    const notice = sealed === null ? null : await readNotice(sealed, keys, row);
    return notice === null
      ? null
      : { refusedAt: new Date(notice.at), refusedReason: notice.reason };
  }

  /** Takes out what was written for a partner, and tells them that their key was taken back; tried again where the folder is away. */
  private async takeLeaveOf(row: WithFolder, endedAt: Date): Promise<void> {
    const { manager } = this.dataSource;
    const { installId, endedReason: reason, readingKey } = row;
    try {
      const { ours, keys } = await this.between(row);
      const at = endedAt.toISOString();
      await ours.write(NOTICE, await writeNotice({ at, reason }, keys, { installId, readingKey }));
      await ours.keepOnly(new Set([NOTICE]));
      await changePartnerInstall(manager, installId, { folder: null, problem: null });
    } catch (error) {
      if (!(error instanceof FolderAway)) throw error;
      await changePartnerInstall(manager, installId, { problem: error.message });
    }
  }

  private async between(row: WithFolder): Promise<Between> {
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

  /** One line: theirs in, then ours out, with what came in. Nothing is read of one of which nothing changed on either side. */
  private async line(between: Between, grant: LineGrantRow): Promise<string[]> {
    const { borrower } = between;
    const { lineId } = grant;
    const state = await this.stateOf(between, grant);
    const newer = await this.taking.newer(between, lineId);
    if (newer === null && (await this.giving.stands(between, lineId, state)))
      return this.giving.names(between, lineId);
    let lent = await this.lines.lent(lineId, borrower);
    if (newer !== null && (await this.taking.takeIn(between, grant, lent, newer)))
      lent = await this.lines.lent(lineId, borrower);
    return this.giving.give(between, lent, await this.stateOf(between, grant));
  }

  private async stateOf({ borrower }: Between, grant: LineGrantRow): Promise<string> {
    const { level, scores, photos, notes, water, place, prices, ancestors } = grant;
    return printOf(
      JSON.stringify([
        ...[level, scores, photos, notes, water, place, prices, ancestors, borrower.name],
        await sharedState(this.dataSource.manager),
      ]),
    );
  }
}
