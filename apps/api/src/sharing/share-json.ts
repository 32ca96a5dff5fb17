import { catalogue, defineLocus, type Locus, type LocusDefinition } from '@linewright/heredity';
import { sheetTotal } from '@linewright/merit';
import { FieldChecks } from '../errors/field-checks.js';
import { expectLines, expectWindow } from '../score-sheets/sheet-checks.js';
import { FaultSeverity, type SheetContent } from '../score-sheets/sheet-content.js';

/** Parts of records that are structures of their own: each is checked, and written in one way only. */
export interface JsonForm {
  /** What is wrong with a value of the file; null when it can be taken. */
  readonly problem: (value: unknown) => string | null;
  /** The same content, always in the same words. */
  readonly canonical: (value: unknown) => unknown;
}

export type SharedSheetVersion = SheetContent & { readonly version: number };

const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const isText = (value: unknown): value is string =>
  typeof value === 'string' && !value.includes('\0');
const isNumber = (value: unknown): value is number =>
  typeof value === 'number' && Number.isFinite(value);
const isDays = (value: unknown): boolean => value === null || Number.isInteger(value);
const isLevel = (value: unknown): boolean => value === null || isNumber(value);

/** Keys in the order of the alphabet all the way down: databases and hands order them as they like. */
export const inOrder = (value: unknown): unknown => {
  if (Array.isArray(value)) return value.map(inOrder);
  if (!isObject(value)) return value;
  return Object.fromEntries(
    Object.keys(value)
      .sort()
      .map((key) => [key, inOrder(value[key])]),
  );
};

const told = (error: unknown): string => (error instanceof Error ? error.message : String(error));

const gradesProblem = (value: unknown): string | null =>
  Array.isArray(value) &&
  value.every((grade) => isObject(grade) && isNumber(grade['from']) && isText(grade['name']))
    ? null
    : 'is no list of grades with "from" and "name"';

const frequenciesProblem = (value: unknown): string | null => {
  if (!isObject(value)) return 'is no list of frequencies by allele';
  const shares = Object.values(value);
  if (!shares.every((share) => isNumber(share) && share >= 0 && share <= 1))
    return 'has a frequency that is not a number from 0 to 1';
  const sum = (shares as number[]).reduce((a, b) => a + b, 0);
  return Math.abs(sum - 1) > 1e-9 ? `has frequencies that sum to ${sum}, not 1` : null;
};

const definitionOf = (value: Record<string, unknown>): LocusDefinition => {
  const { id, name, alleles, phenotypes, expression, layer, dominance, dominanceNote } = value;
  const { notations, hiddenBy, viability, fertility, scoring, risks, notes, testable } = value;
  const given = {
    ...{ id, name, alleles, phenotypes, expression, layer, dominance, dominanceNote },
    ...{ notations, hiddenBy, viability, fertility, scoring, risks, notes, testable },
  };
  const present = Object.entries(given).filter(([, part]) => part !== undefined && part !== null);
  return Object.fromEntries(present) as unknown as LocusDefinition;
};

/** A locus as its keeper defined it, without the number of its version: versions are counted in each install. */
const sharedLocus = (value: unknown): Partial<Locus> => {
  const raw = value as Record<string, unknown>;
  const locus: Partial<Locus> & { version?: number } = {
    ...defineLocus(definitionOf(raw)),
    status: raw['status'] === 'withdrawn' ? 'withdrawn' : 'current',
  };
  delete locus.version;
  return locus;
};

const locusProblem = (value: unknown): string | null => {
  if (!isObject(value) || !isText(value['id'])) return 'is no locus';
  if (!/^[a-z][a-z0-9-]{0,31}$/.test(value['id'])) return `has the short name "${value['id']}"`;
  const listed = catalogue.find(({ id }) => id === value['id']);
  if (listed !== undefined) return `is called as the catalogue's ${listed.name} is`;
  try {
    sharedLocus(value);
    return null;
  } catch (error) {
    return `cannot be used: ${told(error)}`;
  }
};

const severities: readonly string[] = Object.values(FaultSeverity);

const versionProblem = (value: unknown): string | null => {
  if (!isObject(value)) return 'is no version';
  const { lines, faults, deductions, fromAgeDays, toAgeDays } = value;
  if (!isDays(fromAgeDays) || !isDays(toAgeDays)) return 'has an age that is no whole number';
  const linesFit =
    Array.isArray(lines) &&
    lines.every(
      (line) =>
        isObject(line) &&
        isText(line['traitId']) &&
        Number.isInteger(line['traitVersion']) &&
        ['weight', 'noneAt', 'fullAt'].every((key) => isLevel(line[key])),
    );
  if (!linesFit) return 'has lines that cannot be read';
  const faultsFit =
    Array.isArray(faults) &&
    faults.every(
      (fault) =>
        isObject(fault) &&
        isText(fault['id']) &&
        isText(fault['name']) &&
        severities.includes(String(fault['severity'])),
    );
  if (!faultsFit) return 'has faults that cannot be read';
  const deductionsFit =
    isObject(deductions) &&
    Object.entries(deductions).every(
      ([severity, points]) =>
        severities.includes(severity) && isNumber(points) && points >= 0 && points <= 100,
    );
  return deductionsFit ? contentProblem(value as unknown as SheetContent) : 'has bad deductions';
};

const contentProblem = (content: SheetContent): string | null => {
  try {
    const checks = new FieldChecks();
    expectWindow(content.fromAgeDays, content.toAgeDays, checks);
    expectLines(content, new Map(), checks);
    checks.expectNone();
    sheetTotal(
      content.lines.map(({ traitId, ...line }) => ({ trait: traitId, ...line })),
      new Map(),
      [],
    );
    return null;
  } catch (error) {
    return `cannot be scored on: ${told(error)}`;
  }
};

const versionsProblem = (value: unknown): string | null => {
  if (!Array.isArray(value) || value.length === 0) return 'is no list of versions';
  for (const [index, version] of value.entries()) {
    const number = isObject(version) ? version['version'] : null;
    if (number !== index + 1) return `has no version ${index + 1} in its place`;
    const problem = versionProblem(version);
    if (problem !== null) return `${problem} (version ${index + 1})`;
  }
  return null;
};

const plain = (problem: JsonForm['problem']): JsonForm => ({ problem, canonical: inOrder });

export const grades = plain(gradesProblem);
export const frequencies = plain(frequenciesProblem);
export const sheetVersions = plain(versionsProblem);
export const ownLocus: JsonForm = {
  problem: locusProblem,
  canonical: (value) => {
    try {
      return inOrder(sharedLocus(value));
    } catch {
      // One that was recorded under older rules still compares equal to itself.
      return inOrder(value);
    }
  },
};

/** The traits that the versions of a sheet score. */
export const traitsOfVersions = (value: unknown): string[] =>
  (value as SharedSheetVersion[]).flatMap(({ lines }) => lines.map(({ traitId }) => traitId));
