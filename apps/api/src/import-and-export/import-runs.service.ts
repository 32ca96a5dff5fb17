import { promisify } from 'node:util';
import { gunzip, gzip } from 'node:zlib';
import { Inject, Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { currentActor } from '../access/acting.js';
import { Clock } from '../clock/clock.js';
import type { Config } from '../config/config.js';
import { CONFIG } from '../config/config.token.js';
import { RequestError, notFound } from '../errors/request-error.js';
import { type KeysetPage, keysetPage } from '../graphql/keyset.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import type { ComputationRow } from '../stock/rows/computation.entity.js';
import { accountWithId } from '../accounts/known-accounts.js';
import { isAskedForSql, isUnderWaySql } from '../jobs/computation-sql.js';
import { ComputationsService, type Watcher } from '../jobs/computations.service.js';
import { ImportsService, type PedigreeFile } from './imports.service.js';
import { ImportRunRow } from '../stock/rows/import-run.entity.js';
import { runImport } from './import-in-thread.js';
import type { ImportAnswer, ImportTask } from './import-task.js';
import type { ImportPurpose, ImportRun } from './import-run.js';

/** Looking at a row costs about a tenth of taking it in. */
const LOOK_FACTOR = 10;
/** Some 100 letters a row of the most rows: beyond it a few long lines cost as much as many. */
const MOST_CHARACTERS_AT_ONCE = 2_000_000;

const KINDS: Readonly<Record<ImportPurpose, string>> = { look: 'import_look', take: 'import' };

/** Files looked at before the one at hand, and what is left of old imports. */
const TIDY_LOOKS = `
  DELETE FROM import_run r
  WHERE person_id = $1 AND purpose = 'look' AND NOT ${isUnderWaySql(KINDS.look, 'r.id::text')}`;
const TIDY_OLD = `DELETE FROM import_run WHERE created_at < now() - interval '30 days'`;

const linesIn = (text: string): number => {
  let lines = 0;
  for (let at = text.indexOf('\n'); at >= 0; at = text.indexOf('\n', at + 1)) lines++;
  // Old line ends are a single carriage return.
  return lines > 1 ? lines : text.split('\r').length;
};

/** Pedigree files large enough to take a while: begun, followed and stopped through any process. */
@Injectable()
export class ImportRunsService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly imports: ImportsService,
    private readonly computations: ComputationsService,
    @Inject(CONFIG) private readonly config: Config,
    private readonly clock: Clock,
  ) {
    for (const purpose of ['look', 'take'] as const)
      computations.register(KINDS[purpose], (id, _, watcher) => this.work(id, watcher));
  }

  isLong(text: string, purpose: ImportPurpose): boolean {
    if (text.length > MOST_CHARACTERS_AT_ONCE) return true;
    const { longFromFish } = this.config;
    return linesIn(text) > (purpose === 'look' ? LOOK_FACTOR * longFromFish : longFromFish);
  }

  /** For answers that come with the request. */
  expectShort(text: string, purpose: ImportPurpose): void {
    if (!this.isLong(text, purpose)) return;
    throw new RequestError(
      'IMPORT_LONG',
      `This file has ${linesIn(text)} lines and ${text.length.toLocaleString('en')} characters, too many to wait for: send it with beginImport, which shows how far it is and can be stopped.`,
    );
  }

  /** Does a short file at once, and begins a long computation for another. Sent twice, it is begun once. */
  async begin(
    id: string,
    purpose: ImportPurpose,
    file: PedigreeFile,
    account: SignedInPerson,
  ): Promise<ImportRun> {
    const { fileName, text, columns, repairs } = file;
    if (!this.isLong(text, purpose)) {
      const answer =
        purpose === 'look'
          ? { preview: await this.imports.look(file, account) }
          : { counts: await this.imports.take(file, account) };
      return { id, purpose, fileName, answer, computation: null };
    }
    await this.tidy(account);
    const body = await promisify(gzip)(text);
    await this.dataSource
      .createQueryBuilder()
      .insert()
      .into(ImportRunRow)
      .values({
        id,
        personId: account.keepsFor,
        purpose,
        fileName,
        columns: columns === null ? null : [...columns],
        repairs,
        body,
        zone: this.clock.zone(),
      })
      .orIgnore()
      .execute();
    const computation = await this.computations.want(
      { kind: KINDS[purpose], subject: id, evidence: '' },
      account.name,
    );
    return this.told({ id, purpose, fileName }, computation);
  }

  async one(id: string, account: SignedInPerson): Promise<ImportRun> {
    const row = await this.repository.findOneBy({ id, personId: account.keepsFor });
    const computation = row === null ? null : await this.computationOf(row);
    if (row === null || computation === null) throw notFound('import', id);
    return this.told(row, computation);
  }

  /** Files being taken in or taken in within 30 days, newest first. */
  async list(
    account: SignedInPerson,
    first: number,
    after: string | null,
  ): Promise<KeysetPage<ImportRun>> {
    const query = this.repository
      .createQueryBuilder('r')
      .where("r.person_id = :personId AND r.purpose = 'take'", { personId: account.keepsFor })
      .andWhere(isAskedForSql(KINDS.take, 'r.id::text'));
    const newestFirst = { key: 'r.created_at', type: 'timestamptz', direction: 'DESC' } as const;
    const page = await keysetPage(query, 'r', newestFirst, first, after ?? undefined);
    const ids = page.edges.map(({ node }) => node.id);
    const known = await this.computations.latestOf(KINDS.take, ids);
    const edges = page.edges.flatMap(({ cursor, node: { id, fileName } }) => {
      const found = known.get(id);
      if (found === undefined) return [];
      const { computation, result } = found;
      const answer = computation.state === 'done' ? (result as ImportAnswer | null) : null;
      return [{ cursor, node: { id, purpose: 'take' as const, fileName, answer, computation } }];
    });
    return { ...page, edges };
  }

  private get repository() {
    return this.dataSource.getRepository(ImportRunRow);
  }

  private computationOf({ id, purpose }: Pick<ImportRunRow, 'id' | 'purpose'>) {
    return this.computations.latest({
      kind: KINDS[purpose as ImportPurpose],
      subject: id,
      evidence: '',
    });
  }

  private async told(
    { id, purpose, fileName }: Pick<ImportRunRow, 'id' | 'purpose' | 'fileName'>,
    computation: ComputationRow,
  ): Promise<ImportRun> {
    const wanted = { kind: KINDS[purpose as ImportPurpose], subject: id, evidence: '' };
    const answer =
      computation.state === 'done'
        ? ((await this.computations.answer(wanted)) as ImportAnswer | null)
        : null;
    return { id, purpose: purpose as ImportPurpose, fileName, answer, computation };
  }

  private async tidy(account: SignedInPerson): Promise<void> {
    await this.dataSource.query(TIDY_LOOKS, [account.keepsFor]);
    await this.dataSource.query(TIDY_OLD);
    await this.computations.forgetOthers(Object.values(KINDS), 'SELECT id::text FROM import_run');
  }

  /** The long computation is worked out for whoever sent the file; that is not always whose records they are. */
  private async askedBy({ personId }: ImportRunRow): Promise<SignedInPerson> {
    const actor = currentActor();
    const id = actor.kind === 'account' ? actor.id : personId;
    const account = await accountWithId(this.dataSource, id);
    if (account === null) throw notFound('account that asked for the import', id);
    return account;
  }

  private async work(id: string, watcher: Watcher): Promise<ImportAnswer> {
    const row = await this.repository
      .createQueryBuilder('run')
      .addSelect('run.body')
      .where({ id })
      .getOne();
    const body = row?.body ?? null;
    if (row === null || body === null) throw notFound('import', id);
    const account = await this.askedBy(row);
    const zone = row.zone ?? this.clock.zone();
    const task: ImportTask = {
      purpose: row.purpose as ImportPurpose,
      fileName: row.fileName,
      text: (await promisify(gunzip)(body)).toString('utf8'),
      columns: row.columns,
      repairs: row.repairs,
      account,
      at: this.clock.now().getTime(),
      day: this.clock.today(zone),
      latestDay: this.clock.latestDay(zone),
      computationId: row.purpose === 'take' ? watcher.id : null,
    };
    return runImport(this.dataSource, task, watcher);
  }
}
