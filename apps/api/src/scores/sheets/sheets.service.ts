import { randomUUID } from 'node:crypto';
import { sheetTotal } from '@linewright/merit';
import { Injectable } from '@nestjs/common';
import { DataSource, type EntityManager } from 'typeorm';
import { trimmed } from '../../database/given.js';
import { expectLines, expectWindow } from '../../stock/valid-sheet.js';
import { RecordStore } from '../../stock/record-store.js';
import { FieldChecks } from '../../errors/field-checks.js';
import { fieldError, notFound } from '../../errors/request-error.js';
import type { SignedInPerson } from '../../graphql/request-context.js';
import type { WithdrawInput } from '../../graphql/withdraw.input.js';
import type { TraitDefinitionRow } from '../../stock/rows/score.entity.js';
import { checkedDeductions, checkedName, contentText, refuse } from './sheet-checks.js';
import type { SheetContent } from '../../stock/rows/sheet-content.js';
import type { ScoreSheetRow } from '../../stock/rows/sheet.entity.js';
import type {
  CreateScoreSheetInput,
  ReviseScoreSheetInput,
  SheetContentInput,
  StartScoreSheetInput,
} from './sheet.inputs.js';
import { type SheetStart, type StartTrait, sheetStarts } from './sheet-starts.js';
import { sheetRecord, traitRecord } from '../../stock/record-types.js';
import { standingTraits, traitWithKey } from '../../stock/score-rows.js';
import { addSheetVersion, sheetsByName, sheetVersion } from '../../stock/sheet-rows.js';

@Injectable()
export class SheetsService {
  constructor(
    private readonly dataSource: DataSource,
    private readonly records: RecordStore,
  ) {}

  list(includeWithdrawn: boolean): Promise<ScoreSheetRow[]> {
    return sheetsByName(this.dataSource.manager, includeWithdrawn);
  }

  find(id: string): Promise<ScoreSheetRow> {
    return this.records.find(this.dataSource.manager, sheetRecord, id);
  }

  create(input: CreateScoreSheetInput, person: SignedInPerson): Promise<ScoreSheetRow> {
    return this.dataSource.transaction((m) => this.createIn(m, input, person));
  }

  /** A sheet from a beginning: traits the person lacks are defined, those with the same key are used as they are. */
  start(input: StartScoreSheetInput, person: SignedInPerson): Promise<ScoreSheetRow> {
    const start = sheetStarts.find(({ key }) => key === input.start);
    if (start === undefined) {
      const known = sheetStarts.map(({ key }) => key).join(', ');
      throw fieldError({
        field: 'start',
        message: `"${input.start}" is not offered: take one of ${known}.`,
      });
    }
    return this.dataSource.transaction(async (m) => {
      const lines = await this.linesOf(m, start, person);
      const { name, description, fromAgeDays, toAgeDays, faults } = start;
      const content = { fromAgeDays, toAgeDays, lines, faults: [...faults], deductions: [] };
      const given = trimmed(input.name) ?? name;
      return this.createIn(m, { id: input.id ?? null, name: given, description, content }, person);
    });
  }

  revise(input: ReviseScoreSheetInput, person: SignedInPerson): Promise<ScoreSheetRow> {
    return this.dataSource.transaction(async (m) => {
      const row = await this.records.find(m, sheetRecord, input.id);
      const before = await sheetVersion(m, row.id, row.version);
      const checks = new FieldChecks();
      const content =
        input.content === null || input.content === undefined
          ? before
          : await this.checked(m, input.content, checks);
      const name =
        input.name === null || input.name === undefined
          ? row.name
          : (checks.keepNow(() => checkedName(input.name!)) ?? row.name);
      checks.expectNone();
      const changed = contentText(content) !== contentText(before);
      const version = changed ? row.version + 1 : row.version;
      const description =
        input.description === undefined ? row.description : (trimmed(input.description) ?? null);
      const changes: Partial<ScoreSheetRow> = { name, description, version };
      const saved = await this.records.correct<ScoreSheetRow>(
        m,
        sheetRecord,
        row.id,
        input.revision,
        changes,
        person.name,
        'revised',
      );
      if (changed) await addSheetVersion(m, row.id, version, content);
      return saved;
    });
  }

  withdraw(input: WithdrawInput, person: SignedInPerson): Promise<ScoreSheetRow> {
    const { id, reason, revision } = input;
    return this.dataSource.transaction((m) =>
      this.records.withdraw<ScoreSheetRow>(m, sheetRecord, id, reason, person.name, revision),
    );
  }

  private async createIn(
    m: EntityManager,
    input: CreateScoreSheetInput,
    person: SignedInPerson,
  ): Promise<ScoreSheetRow> {
    const id = input.id ?? randomUUID();
    const existing = await this.records.known(m, sheetRecord, id);
    if (existing !== null) return existing;
    const checks = new FieldChecks();
    const name = checks.keepNow(() => checkedName(input.name)) ?? '';
    const content = await this.checked(m, input.content, checks);
    checks.expectNone();
    const row = {
      id,
      personId: person.id,
      name,
      description: trimmed(input.description) ?? null,
    };
    const saved = await this.records.create<ScoreSheetRow>(m, sheetRecord, row, person.name);
    await addSheetVersion(m, id, 1, content);
    return saved;
  }

  /** The content; what is wrong with it is noted in `checks`, and it is not to be saved then. */
  private async checked(
    m: EntityManager,
    input: SheetContentInput,
    checks: FieldChecks,
  ): Promise<SheetContent> {
    const traits = await standingTraits(
      m,
      input.lines.map((line) => line.traitId),
    );
    const versions = new Map(traits.map((trait) => [trait.id, trait.version]));
    const content: SheetContent = {
      fromAgeDays: input.fromAgeDays ?? null,
      toAgeDays: input.toAgeDays ?? null,
      lines: input.lines.map((line) => {
        const traitVersion = versions.get(line.traitId);
        if (traitVersion === undefined) throw notFound('trait in use', line.traitId);
        const { traitId, weight = null, noneAt = null, fullAt = null } = line;
        return { traitId, traitVersion, weight, noneAt, fullAt };
      }),
      faults: input.faults.map((fault, k) => {
        const name = trimmed(fault.name) ?? '';
        if (name === '')
          checks.refuse(`faults.${k}.name`, 'A fault has no name: give one or take it out.');
        return { id: fault.id ?? randomUUID(), name, severity: fault.severity };
      }),
      deductions: checkedDeductions(input, checks),
    };
    expectWindow(content.fromAgeDays, content.toAgeDays, checks);
    expectLines(content, new Map(traits.map((trait) => [trait.id, trait.name])), checks);
    checks.expectNone();
    // The library's own rules hold as well, so that a saved sheet can always be totalled.
    sheetTotal(
      content.lines.map(({ traitId, ...l }) => ({ trait: traitId, ...l })),
      new Map(),
      [],
    );
    return content;
  }

  private async linesOf(
    m: EntityManager,
    start: SheetStart,
    person: SignedInPerson,
  ): Promise<SheetContentInput['lines']> {
    const lines: SheetContentInput['lines'] = [];
    for (const offered of start.traits) {
      const trait = await this.traitOf(m, offered, start, person);
      // Grades and yes or no run from one end to the other; what a measurement should reach is the person's to say.
      const ends = trait.kind === 'ordinal' || trait.kind === 'yes_no';
      const up = trait.higherIsBetter !== false;
      lines.push({
        traitId: trait.id,
        noneAt: ends ? (up ? trait.minimum : trait.maximum) : null,
        fullAt: ends ? (up ? trait.maximum : trait.minimum) : null,
      });
    }
    return lines;
  }

  private async traitOf(
    m: EntityManager,
    offered: StartTrait,
    start: SheetStart,
    person: SignedInPerson,
  ): Promise<TraitDefinitionRow> {
    const own = await traitWithKey(m, person.id, offered.key);
    if (own !== null && own.withdrawnAt === null) return own;
    if (own !== null)
      refuse(
        'start',
        `Your trait "${own.name}" was withdrawn and keeps its key ${own.key}: make the sheet from traits of your own.`,
      );
    const row = {
      ...offered,
      id: randomUUID(),
      personId: person.id,
      grades: offered.grades.length === 0 ? null : [...offered.grades],
      fromAgeDays: start.fromAgeDays,
      toAgeDays: null,
    };
    return this.records.create<TraitDefinitionRow>(m, traitRecord, row, person.name);
  }
}
