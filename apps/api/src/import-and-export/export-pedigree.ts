import { generationDepth, pedigreeFromColumns, withGuard } from '@linewright/pedigree';
import { stringify } from 'csv-stringify/sync';
import type { ExportFish } from '../stock/import-and-export-rows.js';
import type { LatestScore } from '../stock/score-rows.js';
import { plainHeader, roleOfHeader } from '@linewright/repair';
import { spawnCell } from './spawn-column.js';

export interface ExportTrait {
  readonly id: string;
  readonly name: string;
}

const CHUNK = 1_000;
const standard = ['tag', 'sire', 'dam', 'sex', 'hatch_date', 'line', 'spawn', 'unrelated'] as const;
const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** Parents before young: by generation (longest path to a founder), then hatch date (unknown last), then tag. */
export const inExportOrder = (fish: readonly ExportFish[]): ExportFish[] => {
  const pedigree = pedigreeFromColumns({
    ids: fish.map((f) => f.id),
    sire: fish.map((f) => f.sireId),
    dam: fish.map((f) => f.damId),
  });
  const depths = generationDepth(pedigree);
  const depth = new Map(pedigree.ids.map((id, index) => [id, depths[index] ?? 0]));
  return fish.toSorted(
    (a, b) =>
      (depth.get(a.id) ?? 0) - (depth.get(b.id) ?? 0) ||
      compare(a.hatchDate ?? '~', b.hatchDate ?? '~') ||
      compare(a.tag, b.tag) ||
      compare(a.id, b.id),
  );
};

/** A partner's fish or spawn may bear a tag of ours: then the name of the person whose it is is added, for a file names each once. */
const tagsOf = (
  fish: readonly Pick<ExportFish, 'id' | 'tag' | 'own' | 'personName'>[],
): Map<string, string> => {
  const own = new Set(fish.filter((f) => f.own).map((f) => f.tag));
  const taken = new Set(own);
  return new Map(
    fish.map((f) => {
      if (f.own) return [f.id, f.tag];
      let tag = taken.has(f.tag) ? `${f.tag} (${f.personName})` : f.tag;
      while (taken.has(tag)) tag += '*';
      taken.add(tag);
      return [f.id, tag];
    }),
  );
};

/** A trait named like one of the fixed columns would be read back as that column. */
const headersOf = (traits: readonly ExportTrait[]): string[] => {
  const taken = new Set<string>();
  return traits.map(({ name }) => {
    let header = roleOfHeader(name) === undefined ? name : `${name} (score)`;
    for (let number = 2; taken.has(plainHeader(header)); number++) header = `${name} ${number}`;
    taken.add(plainHeader(header));
    return header;
  });
};

/** The column in which a file says what it cannot tell; there in a file with such fish alone. */
const NOTE = 'note';

/** Which parents of a fish are recorded and not in the file: whoever asks does not see them. */
const partsNotShared = (
  { sireId, damId, spawnHidden = false }: Pick<ExportFish, 'sireId' | 'damId' | 'spawnHidden'>,
  tags: ReadonlyMap<string, string>,
): string => {
  if (spawnHidden) return 'spawn and parents not shared with whoever made this file';
  const isHidden = (id: string | null): boolean => id !== null && !tags.has(id);
  const parents = [isHidden(sireId) ? 'sire' : '', isHidden(damId) ? 'dam' : ''].filter(Boolean);
  return parents.length === 0
    ? ''
    : `${parents.join(' and ')} not shared with whoever made this file`;
};

/** Blanks at either end and apostrophes of the guard are kept by quotation marks. */
const csv = (rows: string[][]): string =>
  stringify(
    rows.map((row) => row.map(withGuard)),
    { quoted_match: /^\s|\s$|[\t\r\n]/ },
  );

/**
 * The pedigree as CSV text in pieces of a thousand rows: tag, sire, dam, sex, hatch_date, line, spawn (full sibs have the same one),
 * unrelated (yes where the unknown parents are known to be so), then a column a trait with the latest value that stands, and a note where a
 * parent is on record and not shared with whoever asks. An unsexed fish has an empty sex. What a spreadsheet would run stands
 * behind an apostrophe, which an import takes away. Lines end in LF.
 */
export function* pedigreeCsv(
  fish: readonly ExportFish[],
  traits: readonly ExportTrait[],
  scores: readonly LatestScore[],
): Generator<string> {
  const tags = tagsOf(fish);
  const spawns = [
    ...new Map(fish.flatMap(({ spawn }) => (spawn ? [[spawn.id, spawn]] : []))).values(),
  ];
  const spawnTags = tagsOf(spawns);
  const spawn = (f: ExportFish): string =>
    spawnCell(
      {
        spawnTag: f.spawn === null ? null : (spawnTags.get(f.spawn.id) ?? null),
        mixedOrigin: f.spawn?.mixedOrigin ?? false,
        hasSire: f.sireId !== null,
        hasDam: f.damId !== null,
      },
      tag(f.id),
    ) ?? '';
  const values = new Map(scores.map((s) => [`${s.fishId} ${s.traitId}`, s.value]));
  const tag = (id: string | null): string => (id === null ? '' : (tags.get(id) ?? ''));
  const hidden = fish.some((f) => partsNotShared(f, tags) !== '');
  const last = (cells: readonly string[], note: string): string[] =>
    hidden ? [...cells, note] : [...cells];
  yield csv([last([...standard, ...headersOf(traits)], NOTE)]);
  const ordered = inExportOrder(fish);
  for (let start = 0; start < ordered.length; start += CHUNK) {
    yield csv(
      ordered.slice(start, start + CHUNK).map((f) =>
        last(
          [
            tag(f.id),
            tag(f.sireId),
            tag(f.damId),
            f.sex === 'unsexed' ? '' : f.sex,
            f.hatchDate ?? '',
            f.lineCode ?? '',
            spawn(f),
            f.declaredUnrelated ? 'yes' : '',
            ...traits.map((trait) => {
              const value = values.get(`${f.id} ${trait.id}`);
              return value === undefined ? '' : String(value);
            }),
          ],
          partsNotShared(f, tags),
        ),
      ),
    );
  }
}
