import type { Pedigree } from '@linewright/pedigree';
import type { FishFactRow, LookRow } from '../stock/merit-rows.js';
import { hiddenParent } from '../kinship/hidden-parents.js';
import type { TraitKind } from '../graphql/enums.js';
import { type BesideColumns, besideColumns, type BesideTrait } from './beside-columns.js';
import { levelsOf } from './level-column.js';
import type { LevelColumn, LineMembers, MeritTask, ModelPart } from './merit-task.js';
import type { TraitSettings } from './trait-settings.js';

/** What a task is made from. */
export interface TraitRecords {
  readonly trait: { readonly name: string; readonly kind: TraitKind };
  readonly settings: TraitSettings;
  readonly pedigree: Pedigree;
  /** Looks under the trait's present version. */
  readonly looks: readonly LookRow[];
  readonly facts: ReadonlyMap<string, FishFactRow>;
  readonly lineOfSpawn: ReadonlyMap<string, string | null>;
  readonly codeOfLine: ReadonlyMap<string, string>;
  /** Own traits that scores are corrected for. */
  readonly beside: readonly BesideTrait[];
  /** Looks again were left out, since none said anything else. */
  readonly sameAgain?: boolean;
}

export interface BuiltTask {
  readonly task: MeritTask;
  readonly parts: readonly ModelPart[];
  readonly besideNoted: BesideColumns['noted'];
  /** Looks at fish whose day of hatching is not known: taken at the mean age. */
  readonly ageNotKnown: number;
}

const QUARTERS = ['January to March', 'April to June', 'July to September', 'October to December'];

/** Scores of one quarter of a year share weather, water and food. */
export const seasonOf = (day: string): string =>
  `${day.slice(0, 4)}, ${QUARTERS[Math.floor((Number(day.slice(5, 7)) - 1) / 3)] ?? ''}`;

/** Fish of a line that must be scored before its founders get a mean of their own. */
const LEAST_OF_LINE = 5;

/** Lets parts of the model in as far as the scores can tell them, and notes why not. */
class Parts {
  readonly noted: ModelPart[] = [];

  constructor(private readonly settings: TraitSettings) {}

  takes(part: ModelPart['part'], whyNot: string | null): boolean {
    const wished = this.settings[part];
    const fitted = wished && whyNot === null;
    this.noted.push({ part, wished, fitted, whyNot: wished ? whyNot : null });
    return fitted;
  }

  /** The column when its part is let in. */
  column(column: LevelColumn, part: ModelPart['part'], whyNot: string | null): LevelColumn[] {
    return this.takes(part, whyNot) ? [column] : [];
  }
}

/** What each look stands in: one level a row. */
const columnsOf = ({ looks, facts }: TraitRecords) => ({
  season: levelsOf(
    'season',
    looks.map(({ scoredOn }) => seasonOf(scoredOn)),
  ),
  sex: levelsOf(
    'sex',
    looks.map(({ fishId }) => facts.get(fishId)?.sex ?? 'unsexed'),
  ),
  brood: levelsOf(
    'brood',
    looks.map(({ fishId }) => facts.get(fishId)?.spawnId ?? null),
  ),
  place: levelsOf(
    'place',
    looks.map(({ swimsWithId }) => swimsWithId),
  ),
  scorer: levelsOf(
    'scorer',
    looks.map((look) => look.scorer),
  ),
});

const ONE_PLACE = 'All scored fish swim in one place on record.';
const FEW_LINES = `Fewer than two lines have founders and ${LEAST_OF_LINE} scored fish each.`;

const ALWAYS_THE_SAME =
  'Fish that were looked at again got the very same score each time: that tells nothing of how looks differ, and counts as one look a fish.';

/** A trait's task from its records: which wished parts the scores let in, and why others were left out. */
export const buildTask = (records: TraitRecords): BuiltTask => {
  const { trait, settings, pedigree, looks, sameAgain = false } = records;
  const fish = Int32Array.from(looks, ({ fishId }) => pedigree.indexOf(fishId));
  const parts = new Parts(settings);
  const { season, sex, brood, place, scorer } = columnsOf(records);
  const ages = looks.map(({ ageDays }) => ageDays);
  const groups = linesApart(records, fish);
  const fixed = [
    ...parts.column(season, 'season', whyNoSeason(season, brood)),
    ...parts.column(sex, 'sex', oneOnly(sex, 'All scored fish are of one sex on record.')),
  ];
  const other = besideColumns(looks, records.beside, brood);
  const withAge = parts.takes('age', whyNoAge(ages));
  const apart = parts.takes('linesApart', groups === null ? FEW_LINES : null);
  const shared = [
    ...parts.column(brood, 'brood', whyNoBrood(brood, looks)),
    ...parts.column(place, 'place', oneOnly(place, ONE_PLACE)),
    ...parts.column(scorer, 'scorer', oneOnly(scorer, 'One person scored them all.')),
  ];
  const again = new Set(fish).size < fish.length;
  const notAgain = sameAgain ? ALWAYS_THE_SAME : 'No fish was looked at more than once.';
  const withLooks = parts.takes('looks', again ? null : notAgain);
  return {
    parts: parts.noted,
    besideNoted: other.noted,
    ageNotKnown: withAge ? ages.filter((age) => age === null).length : 0,
    task: {
      trait: trait.name,
      kind: trait.kind,
      prior: settings.prior,
      sire: pedigree.sire,
      dam: pedigree.dam,
      ...(pedigree.hidden !== undefined && { hidden: pedigree.hidden }),
      fish,
      values: Float64Array.from(looks, ({ value }) => value),
      fixed: [...fixed, ...other.fixed],
      numbers: other.numbers,
      age: withAge ? fromMean(ages) : null,
      shared,
      looks: withLooks,
      groups: apart ? groups : null,
      lines: membersOfLines(records, fish),
      unscored: unscoredHere(records, fish),
    },
  };
};

const knownOf = (ages: readonly (number | null)[]): number[] => ages.filter((age) => age !== null);

const whyNoAge = (ages: readonly (number | null)[]): string | null =>
  new Set(knownOf(ages)).size < 2 ? 'All looks whose age is known were at one age.' : null;

/** In days, of those that are known. */
export const meanAge = (ages: readonly (number | null)[]): number => {
  const known = knownOf(ages);
  return known.reduce((sum, age) => sum + age, 0) / known.length;
};

/** Days from the mean age; an unknown age counts as the mean. */
const fromMean = (ages: readonly (number | null)[]): Float64Array => {
  const mean = meanAge(ages);
  return Float64Array.from(ages, (age) => (age ?? mean) - mean);
};

const oneOnly = ({ levels }: LevelColumn, why: string): string | null =>
  levels.length < 2 ? why : null;

/** A season in which only one brood was scored says nothing that the brood does not say. */
const whyNoSeason = (season: LevelColumn, brood: LevelColumn): string | null => {
  if (season.levels.length < 2) return 'All looks were in one season.';
  return season.levels.length >= brood.levels.length
    ? 'There are no more broods than seasons: what a season does cannot be told from what a brood is.'
    : null;
};

const whyNoBrood = (brood: LevelColumn, looks: readonly LookRow[]): string | null => {
  if (brood.levels.length < 2) return 'Fewer than two broods were scored.';
  const seen = new Map<number, string>();
  const shared = looks.some(({ fishId }, row) => {
    const code = brood.codes[row]!;
    const first = seen.get(code) ?? fishId;
    seen.set(code, first);
    return code >= 0 && first !== fishId;
  });
  return shared ? null : 'No two scored fish are of one brood.';
};

/** Groups of founders by line: lines with enough scored fish; the founders of all others make one group more. */
function linesApart(
  { pedigree, facts, lineOfSpawn, codeOfLine }: TraitRecords,
  fish: Int32Array,
): MeritTask['groups'] {
  const scored = new Map<string, Set<number>>();
  for (const index of fish) {
    const line = facts.get(pedigree.ids[index]!)?.lineId ?? null;
    if (line !== null) scored.set(line, (scored.get(line) ?? new Set()).add(index));
  }
  const enough = new Set(
    [...scored].filter(([, of]) => of.size >= LEAST_OF_LINE).map(([line]) => line),
  );
  const lineOf = (id: string): string | null => {
    const hidden = hiddenParent(id);
    if (hidden !== null) return lineOfSpawn.get(hidden.spawnId) ?? null;
    return facts.get(id)?.lineId ?? null;
  };
  const founders = pedigree.ids.map((id, i) =>
    pedigree.sire[i]! < 0 || pedigree.dam[i]! < 0 ? lineOf(id) : null,
  );
  const lines = [...new Set(founders)]
    .filter((line) => line !== null && enough.has(line))
    .map((line) => line as string)
    .sort((a, b) => ((codeOfLine.get(a) ?? a) < (codeOfLine.get(b) ?? b) ? -1 : 1));
  if (lines.length < 2) return null;
  const at = new Map(lines.map((line, k) => [line, k]));
  const groupOf = Int32Array.from(founders, (line) =>
    line === null ? lines.length : (at.get(line) ?? lines.length),
  );
  const others = groupOf.some(
    (group, i) => group === lines.length && (pedigree.sire[i]! < 0 || pedigree.dam[i]! < 0),
  );
  const names = lines.map((line) => `line ${codeOfLine.get(line) ?? line}`);
  return { names: others ? [...names, 'other founders'] : names, groupOf };
}

/** Alive here, and not scored yet: those not sorted first, since they tell most of their brood. */
function unscoredHere({ pedigree, facts }: TraitRecords, fish: Int32Array): Int32Array {
  const scored = new Set(fish);
  const open = pedigree.ids.flatMap((id, i) => {
    const one = facts.get(id);
    return one?.aliveHere === true && !scored.has(i) ? [{ i, sorted: one.inUse }] : [];
  });
  return Int32Array.from(
    open.sort((a, b) => Number(a.sorted) - Number(b.sorted) || b.i - a.i),
    ({ i }) => i,
  );
}

/** Lines with a scored fish, all their fish that stand: those with most scored fish first. */
function membersOfLines({ pedigree, facts }: TraitRecords, fish: Int32Array): LineMembers[] {
  const scored = new Map<string, number>();
  for (const index of new Set(fish)) {
    const line = facts.get(pedigree.ids[index]!)?.lineId ?? null;
    if (line !== null) scored.set(line, (scored.get(line) ?? 0) + 1);
  }
  const members = new Map<string, number[]>();
  pedigree.ids.forEach((id, i) => {
    const one = facts.get(id);
    if (one?.standing !== true || one.lineId === null || !scored.has(one.lineId)) return;
    const list = members.get(one.lineId);
    if (list === undefined) members.set(one.lineId, [i]);
    else list.push(i);
  });
  return [...scored]
    .sort(([a, m], [b, n]) => n - m || (a < b ? -1 : 1))
    .map(([lineId]) => ({ lineId, fish: Int32Array.from(members.get(lineId) ?? []) }));
}
