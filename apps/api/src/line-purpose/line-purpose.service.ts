import { isDeepStrictEqual } from 'node:util';
import { completePurpose, MatingError, type LinePurpose } from '@linewright/mating';
import { Injectable } from '@nestjs/common';
import { DataSource, type EntityManager } from 'typeorm';
import { Clock } from '../clock/clock.js';
import { trimmed } from '../database/given.js';
import { oneAtATime } from '../database/one-at-a-time.js';
import { fieldError, notFound, RequestError } from '../errors/request-error.js';
import type { KeysetPage } from '../graphql/keyset.js';
import { pageSize, readCursor, writeCursor } from '../graphql/page.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import { LociService } from '../loci/loci.service.js';
import {
  addPurposeVersion,
  newestPurposes,
  purposeVersion,
  purposeVersions,
  wholePurpose,
} from '../stock/purpose-rows.js';
import { RecordStore } from '../stock/record-store.js';
import { lineRecord } from '../stock/record-types.js';
import type { LinePurposeRow } from '../stock/rows/line-purpose.entity.js';
import { standingTraits } from '../stock/score-rows.js';
import { toPurpose } from './line-purpose.mapper.js';
import type { SayWhatLineIsForInput } from './line-purpose.model.js';

/** What lines are for: every word of it is a new version, and none is changed. */
@Injectable()
export class LinePurposeService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
    private readonly loci: LociService,
    private readonly clock: Clock,
  ) {}

  /** Versions of a line, the newest first. */
  async versions(
    lineId: string,
    first: number,
    after: string | null,
  ): Promise<KeysetPage<LinePurposeRow>> {
    const { manager } = this.dataSource;
    const line = await this.records.find(manager, lineRecord, lineId);
    const size = pageSize(first);
    const before = after === null || after === undefined ? null : versionBehind(after);
    const { rows, total } = await purposeVersions(manager, line.id, size, before);
    const edges = rows
      .slice(0, size)
      .map((node) => ({ cursor: writeCursor(String(node.version), line.id), node }));
    return {
      edges,
      pageInfo: { hasNextPage: rows.length > size, endCursor: edges.at(-1)?.cursor ?? null },
      totalCount: total,
    };
  }

  /** One version of a line; `null` for version 0, which nobody has said. */
  async version(lineId: string, version: number): Promise<LinePurposeRow | null> {
    const { manager } = this.dataSource;
    const line = await this.records.find(manager, lineRecord, lineId);
    if (version === 0) return null;
    const row = await purposeVersion(manager, line.id, version);
    if (row === null)
      throw notFound(`version ${version} of what line ${line.code} is for`, line.id);
    return row;
  }

  /**
   * Adds a version, unless it would say what the newest one says already.
   *
   * @throws RequestError `CONFLICT_REVISION` when a version was added since the form was opened; `VALIDATION` for the field that cannot be.
   */
  say(input: SayWhatLineIsForInput, person: SignedInPerson): Promise<LinePurposeRow> {
    return this.dataSource.transaction(async (m) => {
      const line = await this.records.find(m, lineRecord, input.lineId);
      if (line.withdrawnAt !== null)
        throw fieldError({
          field: 'lineId',
          message: `Line ${line.code} was withdrawn: nothing is bred for it any more.`,
        });
      await oneAtATime(m, `purpose of ${line.id}`);
      const newest = (await newestPurposes(m, [line.id])).get(line.id) ?? null;
      const content = await this.checked(m, toPurpose(input.content));
      const note = trimmed(input.note) ?? null;
      // The same said twice, as by a device that did not get the answer, is one version.
      if (
        newest !== null &&
        newest.note === note &&
        isDeepStrictEqual(wholePurpose(newest), content)
      )
        return newest;
      const version = newest?.version ?? 0;
      if (version !== input.expectedVersion)
        throw new RequestError(
          'CONFLICT_REVISION',
          `What line ${line.code} is for was changed meanwhile (you opened version ${input.expectedVersion}, it is now version ${version}): look at the newer one, then save again.`,
          { id: line.id, expectedRevision: input.expectedVersion, currentRevision: version },
        );
      const row = {
        ...{ lineId: line.id, version: version + 1, content, note },
        ...{ byName: person.name, at: this.clock.now() },
      };
      await addPurposeVersion(m, row);
      return { byAccountId: null, ...row };
    });
  }

  private async checked(m: EntityManager, purpose: LinePurpose): Promise<LinePurpose> {
    const loci = (await this.loci.own(m)).filter(({ status }) => status === 'current');
    const checked = namingTheField(() => completePurpose(purpose, loci));
    const ids = checked.traits.map(({ traitId }) => traitId);
    const known = new Set((await standingTraits(m, ids)).map(({ id }) => id));
    const missing = ids.find((id) => !known.has(id));
    if (missing !== undefined) throw notFound('trait in use', missing);
    return checked;
  }
}

const versionBehind = (cursor: string): number => {
  const version = Number(readCursor(cursor).key);
  if (Number.isSafeInteger(version) && version > 0) return version;
  throw new RequestError(
    'CURSOR_INVALID',
    `"${cursor}" is not a cursor of this list: start again without "after".`,
  );
};

/** What the lib refuses is told at the field of the form that it is about. */
const namingTheField = <T>(check: () => T): T => {
  try {
    return check();
  } catch (error) {
    if (!(error instanceof MatingError)) throw error;
    const { code, subject, message } = error;
    const rules = code === 'MATING_BAD_SETTING' && /^(ages|rest|bodyLengthRatio)/.test(subject);
    throw fieldError({
      field:
        code === 'MATING_BAD_PURPOSE'
          ? `content.${subject}`
          : `content.${rules ? `rules.${subject}` : 'looks'}`,
      message,
    });
  }
};
