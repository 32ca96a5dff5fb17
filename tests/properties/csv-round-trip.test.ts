import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readTable } from '../../apps/api/src/exchange/csv-table.js';
import { pedigreeCsv, type ExportFish } from '../../apps/api/src/exchange/export-pedigree.js';
import { planImport } from '../../apps/api/src/exchange/plan-import.js';
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
const number = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i;

const fishOf = (tags: readonly string[], traits: number): ExportFish[] =>
  tags.map((tag, k) => ({
    id: `id-${k}`,
    tag,
    sex: k % 2 === 0 ? 'male' : 'female',
    hatchDate: `2025-01-${String(k + 1).padStart(2, '0')}`,
    lineCode: traits > 0 ? 'RED' : null,
    sireId: k > 1 ? 'id-0' : null,
    damId: k > 1 ? 'id-1' : null,
    keeperName: 'Owner',
    own: true,
  }));

describe('a pedigree that is exported', () => {
  it('the guard of a cell is taken away exactly, and what stays cannot run', () => {
    fc.assert(
      fc.property(cell, (text) => {
        const written = withGuard(text);
        expect(withoutGuard(written)).toBe(text);
        expect(runs.test(written) && !number.test(written)).toBe(false);
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
        let next = 0;
        const plan = planImport(
          readTable([...pedigreeCsv(fishOf(tags, 0), [], [])].join('')),
          [],
          {
            fish: new Map(),
            lines: new Map(),
            traits: [],
            spawns: new Map(),
            spawnTags: new Set(),
            standing: new Map(),
          },
          () => `new-${++next}`,
        );
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
