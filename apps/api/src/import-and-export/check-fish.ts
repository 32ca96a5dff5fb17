import { findColumnProblems, type PedigreeProblem, type Sex } from '@linewright/pedigree';
import { nearest } from '@linewright/repair';
import type { FishSex } from '../stock/rows/fish.entity.js';
import type { MatchedColumn } from './import-columns.js';
import type { ImportProblem, ImportProblemCode } from './import-problem.js';
import type { ReadFish } from './fish-row.js';
import type { RecordedFish } from './recorded-stock.js';

type Role = 'sire' | 'dam';
const roles = ['sire', 'dam'] as const;

const pedigreeSex = (sex: FishSex | null | undefined): Sex =>
  sex === 'male' || sex === 'female' ? sex : 'unknown';

/** Checks of fish against each other and against the fish recorded already. */
export class FishCheck {
  readonly problems: ImportProblem[] = [];
  /** Rows that stand: the first of each tag. */
  readonly standing: ReadFish[] = [];
  private readonly byTag = new Map<string, ReadFish>();
  /** Made ready once a tag is looked for. */
  private nearest: ((tag: string) => readonly string[]) | undefined;

  constructor(
    private readonly fish: readonly ReadFish[],
    private readonly columns: readonly MatchedColumn[],
    private readonly recorded: ReadonlyMap<string, RecordedFish>,
  ) {
    this.checkTags();
    this.checkParentsAreThere();
    this.checkRecorded();
    this.checkPedigree();
  }

  private report(
    fish: ReadFish,
    role: MatchedColumn['role'],
    code: ImportProblemCode,
    value: string | null,
    message: string,
    remedy: string,
    offers: readonly string[] = [],
  ): void {
    const column = this.columns.find((c) => c.role === role)?.header ?? null;
    this.problems.push({
      ...{ line: fish.line, column, code, value, message, remedy },
      ...(offers.length > 0 && { offers }),
    });
  }

  private checkTags(): void {
    for (const fish of this.fish) {
      const first = this.byTag.get(fish.tag);
      if (first === undefined) {
        this.byTag.set(fish.tag, fish);
        this.standing.push(fish);
      } else {
        this.report(
          fish,
          'tag',
          'IMPORT_DUPLICATE_TAG',
          fish.tag,
          fish.written === first.written
            ? `"${fish.written}" is already on line ${first.line}.`
            : `"${fish.written}" and "${first.written}" on line ${first.line} differ only in capitals or blanks.`,
          'Keep one of the two rows, or give this fish another tag.',
        );
      }
    }
  }

  /** Tags of the file and on record that this one was most likely meant to be. */
  private near(tag: string): readonly string[] {
    this.nearest ??= nearest([...this.byTag.keys(), ...this.recorded.keys()]);
    return this.nearest(tag);
  }

  private checkParentsAreThere(): void {
    for (const fish of this.fish) {
      for (const role of roles) {
        const tag = fish[role];
        if (tag === null || this.byTag.has(tag)) continue;
        const parent = this.recorded.get(tag);
        if (parent === undefined) {
          this.report(
            fish,
            role,
            'IMPORT_UNKNOWN_PARENT',
            tag,
            `The ${role} "${tag}" is neither in the file nor recorded.`,
            `Add a row for "${tag}", correct the tag, or leave the cell empty.`,
            this.near(tag),
          );
        } else if (parent.withdrawn) {
          this.report(
            fish,
            role,
            'IMPORT_PARENT_WITHDRAWN',
            tag,
            `The record of the ${role} "${tag}" was withdrawn.`,
            `Name another ${role}, or leave the cell empty.`,
          );
        }
      }
    }
  }

  /** A tag is never reused: a recorded fish may stand in the file only as it is recorded. */
  private checkRecorded(): void {
    const has = (role: Role) => this.columns.some((c) => c.role === role);
    for (const fish of this.standing) {
      const known = this.recorded.get(fish.tag);
      if (known === undefined) continue;
      const remedy =
        'Give this fish another tag, make the row agree with the record, or correct the record first.';
      const differs = (
        role: MatchedColumn['role'],
        word: string,
        file: string | null,
        record: string | null,
      ) =>
        this.report(
          fish,
          role,
          'IMPORT_TAG_TAKEN',
          file,
          `"${fish.tag}" is recorded already with ${word} ${record ?? 'unknown'}; the file says ${file ?? 'unknown'}.`,
          remedy,
        );
      if (known.withdrawn) {
        this.report(
          fish,
          'tag',
          'IMPORT_TAG_TAKEN',
          fish.tag,
          `"${fish.tag}" is the tag of a withdrawn fish.`,
          'Give this fish another tag: tags are never used twice.',
        );
        continue;
      }
      if (has('sire') && fish.sire !== known.sireTag)
        differs('sire', 'sire', fish.sire, known.sireTag);
      if (has('dam') && fish.dam !== known.damTag) differs('dam', 'dam', fish.dam, known.damTag);
      if (fish.sex !== null && fish.sex !== known.sex) differs('sex', 'sex', fish.sex, known.sex);
      if (fish.hatchDate !== null && fish.hatchDate !== known.hatchDate) {
        differs('hatch_date', 'hatch date', fish.hatchDate, known.hatchDate);
      }
      if (fish.lineCode !== null && fish.lineCode !== known.lineCode) {
        differs('line', 'line', fish.lineCode, known.lineCode);
      }
      if (fish.spawn !== null && fish.spawn !== known.spawn) {
        differs('spawn', 'spawn', fish.spawn, known.spawn);
      }
      if (fish.unrelated !== null && fish.unrelated !== known.declaredUnrelated) {
        const word = (unrelated: boolean) => (unrelated ? 'unrelated' : 'not told');
        const record = word(known.declaredUnrelated);
        differs('unrelated', 'unknown parents', word(fish.unrelated), record);
      }
    }
  }

  /** Recorded fish have no young among the new ones' ancestors, so their own parents need not be looked at. */
  private checkPedigree(): void {
    const outside = new Set<string>();
    for (const fish of this.standing) {
      for (const role of roles) {
        const tag = fish[role];
        if (tag !== null && !this.byTag.has(tag) && this.recorded.has(tag)) outside.add(tag);
      }
    }
    const ids = [...this.standing.map((f) => f.tag), ...outside];
    const listed = (tag: string | null): string | null =>
      tag !== null && (this.byTag.has(tag) || outside.has(tag)) ? tag : null;
    const blanks = Array.from(outside, () => null);
    const found = findColumnProblems({
      ids,
      sire: [...this.standing.map((f) => listed(f.sire)), ...blanks],
      dam: [...this.standing.map((f) => listed(f.dam)), ...blanks],
      sex: ids.map((tag) => pedigreeSex(this.sexOf(tag))),
      bornOn: ids.map(
        (tag) => this.byTag.get(tag)?.hatchDate ?? this.recorded.get(tag)?.hatchDate ?? null,
      ),
    });
    const wrongSex = new Set<string>();
    for (const problem of found) {
      if (problem.code === 'PEDIGREE_SEX_CONFLICT') wrongSex.add(problem.id);
      else this.reportPedigree(problem);
    }
    this.reportSexes(wrongSex);
  }

  private sexOf(tag: string): FishSex | undefined {
    return this.byTag.get(tag)?.sex ?? this.recorded.get(tag)?.sex;
  }

  private reportPedigree({ code, id, others }: PedigreeProblem): void {
    const fish = this.byTag.get(id);
    const other = others[0] ?? '';
    if (fish === undefined) return;
    if (code === 'PEDIGREE_CYCLE') {
      const shown =
        others.length <= 12
          ? others
          : [...others.slice(0, 6), `(${others.length - 10} more)`, ...others.slice(-4)];
      const spelled = [...shown.map((tag) => `"${tag}"`), `"${id}"`].join(' is a young of ');
      const lines = others
        .slice(0, 12)
        .map((tag) => this.byTag.get(tag)?.line ?? '?')
        .join(', ');
      this.report(
        fish,
        fish.sire === (others[1] ?? id) ? 'sire' : 'dam',
        'IMPORT_OWN_ANCESTOR',
        id,
        `"${id}" is its own ancestor: ${spelled}.`,
        `Correct one of the parents on lines ${lines}.`,
      );
    } else if (code === 'PEDIGREE_SAME_PARENTS') {
      this.report(
        fish,
        'dam',
        'IMPORT_SAME_PARENTS',
        other,
        `"${other}" is given as both sire and dam of "${id}".`,
        'Correct one of the two, or leave it empty if it is not known.',
      );
    } else if (code === 'PEDIGREE_PARENT_YOUNGER') {
      const role: Role = fish.sire === other ? 'sire' : 'dam';
      const born = this.byTag.get(other)?.hatchDate ?? this.recorded.get(other)?.hatchDate ?? '';
      this.report(
        fish,
        role,
        'IMPORT_PARENT_YOUNGER',
        other,
        `The ${role} "${other}" (hatched ${born}) is not older than its young "${id}" (hatched ${fish.hatchDate ?? ''}).`,
        `Correct one of the dates, or the ${role}.`,
      );
    }
  }

  /** Every row that uses a fish in a role its sex forbids, not only the first. */
  private reportSexes(wrongSex: ReadonlySet<string>): void {
    const sired = new Map<string, ReadFish>();
    for (const fish of this.standing) if (fish.sire !== null) sired.set(fish.sire, fish);
    for (const fish of this.standing) {
      for (const role of roles) {
        const tag = fish[role];
        if (tag === null) continue;
        const sex = this.sexOf(tag);
        if (role === 'dam' && sex === 'male') {
          this.report(
            fish,
            'dam',
            'IMPORT_MALE_AS_DAM',
            tag,
            `"${tag}" is male and is given as the dam of "${fish.tag}".`,
            `Correct the sex of "${tag}", or name another dam.`,
          );
        } else if (role === 'sire' && sex === 'female') {
          this.report(
            fish,
            'sire',
            'IMPORT_FEMALE_AS_SIRE',
            tag,
            `"${tag}" is female and is given as the sire of "${fish.tag}".`,
            `Correct the sex of "${tag}", or name another sire.`,
          );
        } else if (this.rolesClash(tag, role, sex, wrongSex)) {
          const where = sired.get(tag);
          const elsewhere =
            role === 'dam' && where !== undefined
              ? `sire of "${where.tag}" on line ${where.line}`
              : `${role === 'dam' ? 'sire' : 'dam'} of recorded fish`;
          this.report(
            fish,
            role,
            'IMPORT_BOTH_ROLES',
            tag,
            `"${tag}" is given as the ${role} of "${fish.tag}" and is the ${elsewhere}.`,
            'A fish is either a sire or a dam: correct one of the two.',
          );
        }
      }
    }
  }

  private rolesClash(
    tag: string,
    role: Role,
    sex: FishSex | undefined,
    wrongSex: ReadonlySet<string>,
  ): boolean {
    if (sex === 'male' || sex === 'female') return false;
    const known = this.recorded.get(tag);
    if (role === 'dam') return wrongSex.has(tag) || known?.isSire === true;
    return known?.isDam === true;
  }
}
