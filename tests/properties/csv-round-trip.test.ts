import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readTable } from '../../apps/api/src/import-and-export/csv-table.js';
import type { ExportFish, ExportSpawn } from '../../apps/api/src/stock/import-and-export-rows.js';
import { pedigreeCsv } from '../../apps/api/src/import-and-export/export-pedigree.js';
import { planImport, type ImportPlan } from '../../apps/api/src/import-and-export/plan-import.js';
import { coancestry } from '@linewright/kinship';
import { pedigreeOfRows } from '../../apps/api/src/kinship/hidden-parents.js';
import type { ParentageRow } from '../../apps/api/src/stock/pedigree-rows.js';
import { looseSpelling, withGuard, withoutGuard } from '@linewright/pedigree';

const seed = 20261126;

/** Beginnings that spreadsheets run, quotation marks, separators, blanks and letters of several scripts. */
const piece = fc.constantFrom(
  ...['=', '+', '-', '@', '\t', '\r', '\n', "'", '"', ',', ';', ' ', '＝'],
  ...['a', 'Z', '7', '.', 'e', 'ü', 'ป', '合'],
);
const cell = fc.array(piece, { minLength: 1, maxLength: 8 }).map((parts) => parts.join(''));

/** Spreadsheets run a cell that begins so once its quotation marks are gone. */
const runs = /^\s*[=+\-@\t\r＝]/;
const runsWithin = /^\s*[=+\-@＝]/;
const number = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i;

const spawnOf = (tag: string, mixedOrigin = false): ExportSpawn => ({
  id: `spawn-${tag}`,
  tag,
  mixedOrigin,
  personName: 'Owner',
  own: true,
});

const fishOf = (tags: readonly string[], traits: number): ExportFish[] =>
  tags.map((tag, k) => ({
    id: `id-${k}`,
    tag,
    sex: k % 2 === 0 ? 'male' : 'female',
    hatchDate: `2025-01-${String(k + 1).padStart(2, '0')}`,
    lineCode: traits > 0 ? 'RED' : null,
    sireId: k > 1 ? 'id-0' : null,
    damId: k > 1 ? 'id-1' : null,
    spawn: k > 1 ? spawnOf('P') : null,
    declaredUnrelated: k === 0,
    personName: 'Owner',
    own: true,
  }));

/** The plan of a file's import into empty records. */
const imported = (text: string): ImportPlan => {
  let next = 0;
  const empty = {
    fish: new Map(),
    lines: new Map(),
    traits: [],
    spawns: new Map(),
    spawnsByTag: new Map(),
    people: new Map(),
    vessels: new Map(),
    personId: 'me',
    standing: new Map(),
  };
  return planImport(readTable(text), [], empty, {
    newId: () => `new-${++next}`,
    latestDay: '2026-11-25',
  });
};

/** Coancestry of every two fish, by their tags. */
const coancestries = (
  rows: readonly (ParentageRow & { readonly tag: string })[],
): ReadonlyMap<string, number> => {
  const pedigree = pedigreeOfRows(rows);
  const index = new Map(pedigree.ids.map((id, k) => [id, k]));
  const sorted = rows.toSorted((a, b) => (a.tag < b.tag ? -1 : 1));
  return new Map(
    sorted.flatMap((a) =>
      sorted.map((b) => [
        `${a.tag} ${b.tag}`,
        coancestry(pedigree, index.get(a.id)!, index.get(b.id)!),
      ]),
    ),
  );
};

describe('a pedigree that is exported', () => {
  it('the guard of a cell is taken away exactly, and what stays cannot run', () => {
    fc.assert(
      fc.property(cell, (text) => {
        const written = withGuard(text);
        expect(withoutGuard(written)).toBe(text);
        expect(runs.test(written) && !number.test(written)).toBe(false);
        // Nor where it is taken apart at semicolons and line ends.
        for (const part of written.split(/[;\r\n]/).slice(1))
          expect(runsWithin.test(part)).toBe(false);
      }),
      { seed, numRuns: 2_000 },
    );
  });

  it('is read back cell by cell, whatever tags and traits are called, and never runs in a spreadsheet', () => {
    const names = fc.uniqueArray(
      cell.filter((text) => looseSpelling(text) !== ''),
      { minLength: 3, maxLength: 8, selector: looseSpelling },
    );
    const traitName = cell.filter((text) => /\p{L}/u.test(text));
    fc.assert(
      fc.property(
        names,
        traitName,
        fc.double({ noNaN: true, min: -1e6, max: 1e6 }),
        (tags, trait, value) => {
          const fish = fishOf(tags, 1);
          const text = [
            ...pedigreeCsv(
              fish,
              [{ id: 't', name: trait }],
              fish.map(({ id }) => ({ fishId: id, traitId: 't', value })),
            ),
          ].join('');
          const table = readTable(text);
          expect(table.problems).toEqual([]);
          expect(table.header.at(-1)).toBe(trait);
          const byTag = new Map(fish.map((one) => [one.id, one.tag]));
          expect(new Set(table.rows.map(({ cells }) => JSON.stringify(cells)))).toEqual(
            new Set(
              fish.map((one) =>
                JSON.stringify([
                  one.tag,
                  byTag.get(one.sireId ?? '') ?? '',
                  byTag.get(one.damId ?? '') ?? '',
                  one.sex,
                  one.hatchDate,
                  one.lineCode,
                  one.spawn?.tag ?? '',
                  one.declaredUnrelated ? 'yes' : '',
                  String(value),
                ]),
              ),
            ),
          );
        },
      ),
      { seed, numRuns: 500 },
    );
  });

  it('and imported has the same sibs, the same unrelated founders and the same coancestry of every two fish', () => {
    const origins = [
      { spawn: null, sire: false, dam: false },
      { spawn: spawnOf('known'), sire: true, dam: true },
      { spawn: spawnOf('BAG'), sire: false, dam: false },
      { spawn: spawnOf('OTHER BAG'), sire: false, dam: false },
      { spawn: spawnOf('half'), sire: true, dam: false },
      { spawn: spawnOf('mixed bag', true), sire: false, dam: false },
      { spawn: spawnOf('mixed young', true), sire: false, dam: true },
    ] as const;
    const one = fc.record({ origin: fc.constantFrom(...origins), unrelated: fc.boolean() });
    fc.assert(
      fc.property(fc.array(one, { minLength: 2, maxLength: 9 }), (young) => {
        const parents = fishOf(['S', 'D'], 0);
        const fish = [
          ...parents,
          ...young.map(({ origin, unrelated }, k): ExportFish => ({
            ...parents[0]!,
            id: `id-y${k}`,
            tag: `Y${k}`,
            hatchDate: '2025-06-01',
            sireId: origin.sire ? 'id-0' : null,
            damId: origin.dam ? 'id-1' : null,
            spawn: origin.spawn,
            declaredUnrelated: unrelated,
          })),
        ];
        const plan = imported([...pedigreeCsv(fish, [], [])].join(''));
        expect(plan.problems).toEqual([]);
        const spawns = new Map(plan.spawns.map((spawn) => [spawn.id, spawn]));
        const back = plan.fish.map(({ id, spawnId, tag, declaredUnrelated }) => ({
          id,
          tag,
          declaredUnrelated,
          spawnId,
          sire: spawns.get(spawnId ?? '')?.sireId ?? null,
          dam: spawns.get(spawnId ?? '')?.damId ?? null,
          mixed: false,
        }));
        const before = fish.map(({ id, tag, sireId, damId, spawn }) => {
          const mixed = spawn?.mixedOrigin ?? false;
          return { id, tag, sire: sireId, dam: damId, spawnId: spawn?.id ?? null, mixed };
        });
        expect(coancestries(back)).toEqual(coancestries(before));
        expect(back.map((f) => [f.tag, f.declaredUnrelated ?? false]).sort()).toEqual(
          fish.map((f) => [f.tag, f.declaredUnrelated]).sort(),
        );
      }),
      { seed, numRuns: 300 },
    );
  });

  it('and imported plans the same fish with the same parents', () => {
    const tag = fc
      .array(fc.constantFrom('=', '+', '@', "'", '"', ',', 'A', '7', 'ü'), {
        minLength: 1,
        maxLength: 6,
      })
      .map((parts) => parts.join(''));
    const names = fc.uniqueArray(
      tag.filter((text) => looseSpelling(text) !== ''),
      { minLength: 3, maxLength: 8, selector: looseSpelling },
    );
    fc.assert(
      fc.property(names, (tags) => {
        const plan = imported([...pedigreeCsv(fishOf(tags, 0), [], [])].join(''));
        expect(plan.problems).toEqual([]);
        expect(plan.notes).toEqual([]);
        expect(new Set(plan.fish.map((one) => one.tag))).toEqual(new Set(tags));
        const parents = new Map(plan.fish.map((one) => [one.id, one.tag]));
        for (const spawn of plan.spawns)
          expect([parents.get(spawn.sireId ?? ''), parents.get(spawn.damId ?? '')]).toEqual(
            tags.slice(0, 2),
          );
      }),
      { seed, numRuns: 500 },
    );
  });
});
