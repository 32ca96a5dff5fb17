import { randomUUID } from 'node:crypto';
import { checkTemplate, defaultTemplate } from '@linewright/care';
import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { RecordStore } from '../stock/record-store.js';
import { orTaken } from '../database/unique.js';
import { fieldError } from '../errors/request-error.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import type { WithdrawInput } from '../graphql/withdraw.input.js';
import { careTemplatesOf } from '../stock/care-rows.js';
import { careTemplateRecord, lineRecord } from '../stock/record-types.js';
import type { CareTemplateRow } from '../stock/rows/care.entity.js';
import type { SaveCareTemplateInput } from './care.inputs.js';
import { fromStep, type TemplateInUse } from './care.mapper.js';

const inUse = (row: CareTemplateRow): TemplateInUse => ({
  template: { name: row.name, steps: row.steps },
  row,
});

@Injectable()
export class CareTemplatesService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
  ) {}

  /** The built-in calendar first, then the person's own. */
  async list(person: SignedInPerson): Promise<TemplateInUse[]> {
    const rows = await careTemplatesOf(this.dataSource.manager, person.id);
    return [{ template: defaultTemplate, row: null }, ...rows.map(inUse)];
  }

  async save(input: SaveCareTemplateInput, person: SignedInPerson): Promise<TemplateInUse> {
    const template = { name: input.name.trim(), steps: input.steps.map(fromStep) };
    const problems = checkTemplate(template);
    if (problems.length > 0) {
      throw fieldError(
        ...problems.map(({ step, message }) => ({ field: step ?? 'steps', message })),
      );
    }
    await this.records.find(this.dataSource.manager, lineRecord, input.lineId);
    const row = { ...template, lineId: input.lineId };
    const saving = this.dataSource.transaction((m) =>
      input.revision == null
        ? this.records.create<CareTemplateRow>(
            m,
            careTemplateRecord,
            { id: input.id ?? randomUUID(), personId: person.id, ...row } as never,
            person.name,
          )
        : this.records.correct<CareTemplateRow>(
            m,
            careTemplateRecord,
            input.id ?? '',
            input.revision,
            { ...row, steps: [...row.steps] },
            person.name,
          ),
    );
    const message = 'This line has a calendar of its own already: change that one.';
    return inUse(await orTaken(saving, 'care_template_in_force_once', 'lineId', message));
  }

  withdraw(input: WithdrawInput, person: SignedInPerson): Promise<CareTemplateRow> {
    return this.dataSource.transaction((m) =>
      this.records.withdraw<CareTemplateRow>(
        m,
        careTemplateRecord,
        input.id,
        input.reason,
        person.name,
        input.revision,
      ),
    );
  }
}
