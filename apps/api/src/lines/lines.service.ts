import { randomUUID } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { given, kept, trimmed } from '../database/given.js';
import { RecordStore } from '../stock/record-store.js';
import { orTaken } from '../database/unique.js';
import { FieldChecks } from '../errors/field-checks.js';
import { fieldError, RequestError } from '../errors/request-error.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import type { WithdrawInput } from '../graphql/withdraw.input.js';
import { countFishOf } from '../stock/fish-rows.js';
import { linesByCode } from '../stock/line-rows.js';
import type { LineRow } from '../stock/rows/line.entity.js';
import type { CorrectLineInput, CreateLineInput } from '../shapes/line.model.js';
import { lineRecord } from '../stock/record-types.js';

const taken = (code: string): string =>
  `The code "${code}" is taken by another of your lines: choose another.`;

const checkedCode = (code: string): string => {
  const text = code.trim();
  if (!/^[\p{L}\p{N}-]{1,16}$/u.test(text)) {
    throw fieldError({
      field: 'code',
      message: `"${code}" cannot be a code: give 1 to 16 letters, digits or hyphens.`,
    });
  }
  return text;
};

const checkedName = (name: string): string => {
  if (name.trim() === '') throw fieldError({ field: 'name', message: 'Give the line a name.' });
  return name.trim();
};

@Injectable()
export class LinesService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
  ) {}

  list(includeWithdrawn: boolean): Promise<LineRow[]> {
    return linesByCode(this.dataSource.manager, includeWithdrawn);
  }

  one(id: string): Promise<LineRow> {
    return this.records.find(this.dataSource.manager, lineRecord, id);
  }

  create(input: CreateLineInput, person: SignedInPerson): Promise<LineRow> {
    const checks = new FieldChecks();
    const checked = {
      code: checks.keepNow(() => checkedCode(input.code)) ?? '',
      name: checks.keepNow(() => checkedName(input.name)) ?? '',
    };
    checks.expectNone();
    const row = {
      id: input.id ?? randomUUID(),
      personId: person.id,
      ...checked,
      goal: trimmed(input.goal) ?? null,
    };
    const save = this.dataSource.transaction((m) =>
      this.records.create<LineRow>(m, lineRecord, row, person.name),
    );
    return orTaken(save, 'line_code_once', 'code', taken(row.code));
  }

  correct(input: CorrectLineInput, person: SignedInPerson): Promise<LineRow> {
    const code = kept(input.code);
    const name = kept(input.name);
    const checks = new FieldChecks();
    const checked = {
      ...(code !== undefined && { code: checks.keepNow(() => checkedCode(code)) ?? '' }),
      ...(name !== undefined && { name: checks.keepNow(() => checkedName(name)) ?? '' }),
    };
    checks.expectNone();
    const changes = given<Partial<LineRow>>({
      ...checked,
      ...(input.goal !== undefined && { goal: trimmed(input.goal) ?? null }),
    });
    const save = this.dataSource.transaction((m) =>
      this.records.correct<LineRow>(m, lineRecord, input.id, input.revision, changes, person.name),
    );
    return orTaken(save, 'line_code_once', 'code', taken(code ?? ''));
  }

  withdraw(input: WithdrawInput, person: SignedInPerson): Promise<LineRow> {
    return this.dataSource.transaction(async (m): Promise<LineRow> => {
      const count = await countFishOf(m, { lineId: input.id });
      if (count > 0) {
        throw new RequestError(
          'IN_USE',
          `${count} fish belong to this line: move or withdraw them first.`,
          { count },
        );
      }
      return this.records.withdraw<LineRow>(
        m,
        lineRecord,
        input.id,
        input.reason,
        person.name,
        input.revision,
      );
    });
  }
}
