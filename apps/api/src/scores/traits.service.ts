import { randomUUID } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { DataSource } from 'typeorm';
import { given, kept, trimmed } from '../database/given.js';
import { RecordStore } from '../stock/record-store.js';
import { orTaken } from '../database/unique.js';
import { FieldChecks } from '../errors/field-checks.js';
import { fieldError } from '../errors/request-error.js';
import type { SignedInPerson } from '../graphql/request-context.js';
import type { WithdrawInput } from '../graphql/withdraw.input.js';
import type { TraitDefinitionRow, TraitGrade } from '../stock/rows/score.entity.js';
import type { CorrectTraitInput, CreateTraitInput } from './score.inputs.js';
import { traitRecord } from '../stock/record-types.js';
import { traitsByName } from '../stock/score-rows.js';

const expectRange = (
  minimum: number | null | undefined,
  maximum: number | null | undefined,
): void => {
  if (typeof minimum !== 'number' || typeof maximum !== 'number' || minimum < maximum) return;
  throw fieldError({
    field: 'maximum',
    message: `The largest value (${maximum}) is not above the smallest (${minimum}): change one.`,
  });
};

const expectAges = (from: number | null | undefined, to: number | null | undefined): void => {
  if (typeof from === 'number' && from < 0)
    throw fieldError({
      field: 'fromAgeDays',
      message: `${from} days is before hatching: give 0 or more.`,
    });
  if (typeof from !== 'number' || typeof to !== 'number' || from <= to) return;
  throw fieldError({
    field: 'toAgeDays',
    message: `The oldest age (${to} days) is below the youngest (${from}): change one.`,
  });
};

/** Comparable whatever order the database keeps an object's keys in. */
const gradesText = (grades: readonly TraitGrade[] | null): string =>
  JSON.stringify(grades?.map(({ from, name }) => [from, name]) ?? null);

/** Grades in order, or `null` when none are named. */
export const checkedGrades = (
  grades: readonly TraitGrade[] | null | undefined,
): TraitGrade[] | null => {
  if (grades === null || grades === undefined || grades.length === 0) return null;
  const say = (message: string): never => {
    throw fieldError({ field: 'grades', message });
  };
  const inOrder = grades
    .map(({ from, name }) => ({ from, name: name.trim() }))
    .sort((a, b) => a.from - b.from);
  inOrder.forEach((grade, k) => {
    if (!Number.isFinite(grade.from)) say(`"${grade.name}" begins at no number: give one.`);
    if (grade.name === '') say(`The grade from ${grade.from} has no name: give one.`);
    if (inOrder[k + 1]?.from === grade.from)
      say(`Two grades begin at ${grade.from}: leave one of them out.`);
  });
  return inOrder;
};

@Injectable()
export class TraitsService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
  ) {}

  list(includeWithdrawn: boolean): Promise<TraitDefinitionRow[]> {
    return traitsByName(this.dataSource.manager, includeWithdrawn);
  }

  create(input: CreateTraitInput, person: SignedInPerson): Promise<TraitDefinitionRow> {
    const checks = new FieldChecks();
    if (!/^[a-z][a-z0-9_]{0,39}$/.test(input.key))
      checks.refuse(
        'key',
        `"${input.key}" cannot be a key: start with a small letter, then letters, digits or underscores.`,
      );
    if (input.name.trim() === '') checks.refuse('name', 'Give the trait a name.');
    checks.keepNow(() => expectRange(input.minimum, input.maximum));
    checks.keepNow(() => expectAges(input.fromAgeDays, input.toAgeDays));
    const grades = checks.keepNow(() => checkedGrades(input.grades)) ?? null;
    checks.expectNone();
    const row = {
      id: input.id ?? randomUUID(),
      personId: person.id,
      key: input.key,
      name: input.name.trim(),
      kind: input.kind,
      unit: trimmed(input.unit) ?? null,
      minimum: input.minimum ?? null,
      maximum: input.maximum ?? null,
      higherIsBetter: input.higherIsBetter ?? null,
      fromAgeDays: input.fromAgeDays ?? null,
      toAgeDays: input.toAgeDays ?? null,
      description: trimmed(input.description) ?? null,
      grades,
    };
    const save = this.dataSource.transaction((m) =>
      this.records.create<TraitDefinitionRow>(m, traitRecord, row, person.name),
    );
    return orTaken(
      save,
      'trait_key_once',
      'key',
      `The key "${input.key}" is on another of your traits: choose another.`,
    );
  }

  correct(input: CorrectTraitInput, person: SignedInPerson): Promise<TraitDefinitionRow> {
    return this.dataSource.transaction(async (m): Promise<TraitDefinitionRow> => {
      const row = await this.records.find(m, traitRecord, input.id);
      const checks = new FieldChecks();
      const name = kept(input.name);
      if (name !== undefined && name.trim() === '') checks.refuse('name', 'Give the trait a name.');
      const meaning = given<Partial<TraitDefinitionRow>>({
        ...(input.unit !== undefined && { unit: trimmed(input.unit) ?? null }),
        ...(input.minimum !== undefined && { minimum: input.minimum }),
        ...(input.maximum !== undefined && { maximum: input.maximum }),
        ...(input.grades !== undefined && {
          grades: checks.keepNow(() => checkedGrades(input.grades)) ?? null,
        }),
      });
      const next = { ...row, ...meaning };
      checks.keepNow(() => expectRange(next.minimum, next.maximum));
      const { fromAgeDays = row.fromAgeDays, toAgeDays = row.toAgeDays } = input;
      checks.keepNow(() => expectAges(fromAgeDays, toAgeDays));
      checks.expectNone();
      const changed =
        next.unit !== row.unit ||
        next.minimum !== row.minimum ||
        next.maximum !== row.maximum ||
        gradesText(next.grades) !== gradesText(row.grades);
      const changes: Partial<TraitDefinitionRow> = {
        ...meaning,
        ...(name !== undefined && { name: name.trim() }),
        ...(input.higherIsBetter !== undefined && { higherIsBetter: input.higherIsBetter }),
        ...(input.fromAgeDays !== undefined && { fromAgeDays: input.fromAgeDays }),
        ...(input.toAgeDays !== undefined && { toAgeDays: input.toAgeDays }),
        ...(input.description !== undefined && { description: trimmed(input.description) ?? null }),
        ...(changed && { version: row.version + 1 }),
      };
      return this.records.correct<TraitDefinitionRow>(
        m,
        traitRecord,
        input.id,
        input.revision,
        changes,
        person.name,
      );
    });
  }

  withdraw(input: WithdrawInput, person: SignedInPerson): Promise<TraitDefinitionRow> {
    return this.dataSource.transaction((m) =>
      this.records.withdraw<TraitDefinitionRow>(
        m,
        traitRecord,
        input.id,
        input.reason,
        person.name,
        input.revision,
      ),
    );
  }
}
