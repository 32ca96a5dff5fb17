import { coancestry, coancestryBlock } from '@linewright/kinship';
import {
  allocatePairs,
  assignCheapest,
  assignExhaustively,
  explainPairing,
  completePurpose,
  rankPairings,
  suggestOutcrosses,
  type PairingCandidate,
  type PairingFilter,
  type PairingInput,
  type WorthBasis,
} from '@linewright/mating';
import { pairWarnings, type WarningTrait } from '@linewright/heredity';
import { buildPedigree, type ParentageRecord, type Sex } from '@linewright/pedigree';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';

const SEED = 20261125;
const runs = (numRuns: number): fc.Parameters<unknown> => ({ seed: SEED, numRuns });

interface Stock {
  readonly records: readonly ParentageRecord[];
  readonly candidates: readonly PairingCandidate[];
}

/** A stock of fish with sexes, loops, unknown parents, a few genotypes, scores and dates. */
const stock = (most = 24): fc.Arbitrary<Stock> =>
  fc
    .array(
      fc.record({
        sire: fc.nat(),
        dam: fc.nat(),
        known: fc.integer({ min: 0, max: 9 }),
        sex: fc.constantFrom<Sex>('male', 'female', 'male', 'female', 'unknown'),
        bl: fc.constantFrom(undefined, 'Bl/Bl', 'Bl/bl', 'bl/bl'),
        m: fc.constantFrom(undefined, 'M/M', 'M/m', 'm/m', 'M/-'),
        score: fc.option(fc.integer({ min: 0, max: 10 }), { nil: undefined }),
        hatched: fc.constantFrom(undefined, '2024-01-01', '2026-05-01', '2026-08-01', '2026-10-20'),
        spawned: fc.constantFrom(undefined, '2026-11-20', '2026-11-08', '2026-01-01'),
      }),
      { minLength: 4, maxLength: most },
    )
    .map((rows) => {
      const records: ParentageRecord[] = [];
      const candidates: PairingCandidate[] = [];
      rows.forEach((row, i) => {
        const before = candidates.slice(0, i);
        const pick = (sex: Sex, n: number): string | null => {
          const fit = before.filter((fish) => fish.sex === sex);
          return row.known < 2 || fit.length === 0 ? null : (fit[n % fit.length]?.id ?? null);
        };
        const id = `fish-${String(i).padStart(2, '0')}`;
        records.push({
          id,
          sire: pick('male', row.sire),
          dam: pick('female', row.dam),
          sex: row.sex,
        });
        candidates.push({
          id,
          sex: row.sex,
          genotypes: { ...(row.bl ? { bl: row.bl } : {}), ...(row.m ? { m: row.m } : {}) },
          ...(row.score === undefined
            ? {}
            : { scores: [{ traitId: 't', value: row.score, scoredOn: '2026-10-01' }] }),
          ...(row.hatched ? { hatchedOn: row.hatched } : {}),
          ...(row.spawned ? { lastSpawnedOn: row.spawned } : {}),
        });
      });
      return { records, candidates };
    });

const basis: WorthBasis = {
  purpose: completePurpose({
    traits: [{ traitId: 't', better: 'within', low: 3, high: 6, worth: 1.5 }],
    looks: [{ look: { show: { bl: 'royal' } }, wanted: false, worth: 2, required: false }],
  }),
  traits: [
    {
      ...{ traitId: 't', level: 5, additive: 3, commonBrood: 0.5, residual: 2 },
      line: { mean: 5, deviation: 2.3 },
    },
  ],
  ...{ fry: 50, survival: 0.6, load: 0.5 },
};

const wanted = [{ show: { bl: 'royal' } }];
const inputOf = ({ records, candidates }: Stock): PairingInput => ({
  pedigree: buildPedigree(records),
  candidates,
  asOf: '2026-11-25',
  traits: [{ traitId: 't' }],
  wanted,
});

describe(`pairings (seed ${String(SEED)})`, () => {
  it('F of a brood is the coancestry of the two, and the F of their young once bred', () => {
    fc.assert(
      fc.property(stock(), (one) => {
        const input = inputOf(one);
        for (const row of rankPairings(input).rows()) {
          const { pedigree } = input;
          expect(row.inbreeding).toBeCloseTo(
            coancestry(pedigree, pedigree.indexOf(row.sireId), pedigree.indexOf(row.damId)),
            12,
          );
          const bred = buildPedigree([
            ...one.records,
            { id: 'young', sire: row.sireId, dam: row.damId },
          ]);
          const young = bred.indexOf('young');
          expect(row.inbreeding).toBeCloseTo(2 * coancestry(bred, young, young) - 1, 12);
        }
      }),
      runs(40),
    );
  });

  it('common ancestors account for F exactly, and agree with the paths listed ancestor by ancestor', () => {
    fc.assert(
      fc.property(stock(), (one) => {
        const input = inputOf(one);
        for (const row of rankPairings(input).rows(0, 8)) {
          expect(row.commonAncestry.accountedFor).toBeCloseTo(row.inbreeding, 12);
          const { paths } = explainPairing(input, row.sireId, row.damId, 100_000);
          expect(paths.complete).toBe(true);
          for (const { index, contribution } of row.commonAncestry.ancestors) {
            const through = paths.paths.filter(({ ancestor }) => ancestor === index);
            expect(through.reduce((sum, path) => sum + path.contribution, 0)).toBeCloseTo(
              contribution,
              12,
            );
          }
        }
      }),
      runs(40),
    );
  });

  it('the list does not depend on the order in which fish and records come', () => {
    fc.assert(
      fc.property(
        stock(),
        fc.infiniteStream(fc.double({ min: 0, max: 1, noNaN: true })),
        (one, random) => {
          const shuffled = <T>(items: readonly T[]): T[] =>
            items
              .map((item) => ({ item, at: Number(random.next().value) }))
              .toSorted((a, b) => a.at - b.at)
              .map(({ item }) => item);
          const other = { records: shuffled(one.records), candidates: shuffled(one.candidates) };
          // Of equal contributions the younger ancestor comes first, and age among unrelated fish is the order of records.
          const rows = (of: Stock): unknown[] =>
            rankPairings(inputOf(of))
              .rows()
              .map((row) => ({
                ...row,
                commonAncestry: row.commonAncestry.count,
                reasons: row.reasons.length,
              }));
          expect(rows(other)).toEqual(rows(one));
        },
      ),
      runs(60),
    );
  });

  it('new ids change no figure', () => {
    fc.assert(
      fc.property(stock(), (one) => {
        const renamed = (id: string): string =>
          `z${String(99 - Number(id.slice(5))).padStart(2, '0')}`;
        const parent = (id: string | null | undefined): string | null => (id ? renamed(id) : null);
        const other: Stock = {
          records: one.records.map((record) => ({
            ...record,
            id: renamed(record.id),
            sire: parent(record.sire),
            dam: parent(record.dam),
          })),
          candidates: one.candidates.map((fish) => ({ ...fish, id: renamed(fish.id) })),
        };
        const figures = (of: Stock, name: (id: string) => string): Map<string, number[]> =>
          new Map(
            rankPairings(inputOf(of))
              .rows()
              .map((row) => [
                `${name(row.sireId)} ${name(row.damId)}`,
                [
                  row.inbreeding,
                  row.worth.worth,
                  row.commonAncestry.count,
                  row.warnings.length,
                  row.knownAncestry.sire,
                ],
              ]),
          );
        const [before, after] = [figures(one, renamed), figures(other, (id) => id)];
        expect(after.size).toBe(before.size);
        for (const [pair, values] of before) {
          values.forEach((value, k) => expect(after.get(pair)?.[k]).toBeCloseTo(value, 9));
        }
      }),
      runs(60),
    );
  });

  it('the filtered list is the whole list without what the filter names, in the same order', () => {
    const filters: fc.Arbitrary<PairingFilter> = fc.record(
      {
        maximumInbreeding: fc.constantFrom(0, 0.0625, 0.125, 0.25, 1),
        leaveOutFrom: fc.constantFrom('note' as const, 'caution' as const, 'stop' as const),
        mustGive: fc.constant(wanted),
        leaveOutWarnings: fc.constantFrom(
          ['UNKNOWN_ANCESTRY'],
          ['RESTING', 'TOO_YOUNG'],
          ['MELANO_DAM_EGGS_DO_NOT_HATCH'],
        ),
      },
      { requiredKeys: [] },
    );
    const rank = { note: 1, caution: 2, stop: 3 };
    fc.assert(
      fc.property(stock(), filters, (one, filter) => {
        const input = inputOf(one);
        const fits = (row: ReturnType<ReturnType<typeof rankPairings>['rows']>[number]): boolean =>
          row.inbreeding <= (filter.maximumInbreeding ?? 1) + 1e-12 &&
          (!filter.leaveOutFrom ||
            row.severity === null ||
            rank[row.severity] < rank[filter.leaveOutFrom]) &&
          (!filter.mustGive || (row.wishes[0]?.share ?? 0) > 0) &&
          !row.warnings.some(({ code }) => filter.leaveOutWarnings?.includes(code));
        const pairs = (rows: readonly { sireId: string; damId: string }[]): string[] =>
          rows.map(({ sireId, damId }) => `${sireId} ${damId}`);
        expect(pairs(rankPairings(input, filter).rows())).toEqual(
          pairs(rankPairings(input).rows().filter(fits)),
        );
      }),
      runs(150),
    );
  });

  it('worth is the sum of its parts, and the list falls by it, with what must not be paired behind', () => {
    fc.assert(
      fc.property(stock(), fc.boolean(), (one, asked) => {
        const input = inputOf(one);
        const rows = rankPairings(asked ? { ...input, worth: basis } : input).rows();
        rows.forEach((row, k) => {
          const { worth, traits, looks, choice, inbreeding } = row.worth;
          const parts = [...traits, ...looks].map(({ points }) => points ?? 0);
          const sum = parts.reduce((total, each) => total + each, choice + inbreeding);
          expect(worth).toBeCloseTo(sum, 9);
          const before = rows[k - 1];
          if (before && before.discouraged === row.discouraged)
            expect(worth).toBeLessThanOrEqual(before.worth.worth);
          else expect(before?.discouraged ?? false).toBe(false);
          expect(row.discouraged).toBe(row.warnings.some(({ severity }) => severity === 'stop'));
        });
      }),
      runs(60),
    );
  });
});

describe(`genotype warnings (seed ${String(SEED)})`, () => {
  const texts: Record<string, readonly string[]> = {
    m: ['M/M', 'M/m', 'm/m', 'M/-', '-/-'],
    dt: ['Dt/Dt', 'Dt/dt', 'dt/dt', 'Dt/-'],
    mt: ['Mt/Mt', 'Mt/mt', 'mt/mt'],
    op: ['Op/Op', 'Op/op', 'op/op', 'Op/-'],
    al: ['Al/Al', 'Al/al', 'al/al'],
    bl: ['Bl/bl', 'bl/bl'],
  };
  const traits: readonly WarningTrait[] = [
    'melano',
    'double-tail',
    'rosetail',
    'marble',
    'opaque',
    'metallic',
    'albino',
  ];
  const genotypes = fc
    .tuple(
      ...Object.entries(texts).map(([locus, some]) =>
        fc.option(fc.constantFrom(...some.map((text) => [locus, text] as const)), { nil: null }),
      ),
    )
    .map((known): Record<string, string> =>
      Object.fromEntries(known.flatMap((one) => (one ? [one] : []))),
    );
  const member = fc.record({ genotypes, traits: fc.subarray([...traits]) });

  it('in a row are those the heredity library gives for the pair as a whole', () => {
    const pedigree = buildPedigree([{ id: 'sire' }, { id: 'dam' }]);
    const codes = pairWarnings({ genotypes: { m: 'M/m' } }, { genotypes: { m: 'm/m' } }).map(
      ({ code }) => code,
    );
    expect(codes).toContain('MELANO_DAM_EGGS_DO_NOT_HATCH');
    fc.assert(
      fc.property(member, member, (sire, dam) => {
        const candidates: PairingCandidate[] = [
          { id: 'sire', sex: 'male', hatchedOn: '2026-05-01', ...sire },
          { id: 'dam', sex: 'female', hatchedOn: '2026-05-01', ...dam },
        ];
        const [row] = rankPairings({ pedigree, candidates, asOf: '2026-11-25' }).rows();
        const shown = row?.warnings.filter(({ code }) => code !== 'UNKNOWN_ANCESTRY');
        const text = (
          warnings: readonly { code: string; severity: string; text: string }[],
        ): string[] =>
          warnings
            .map((warning) => `${warning.severity} ${warning.code} ${warning.text}`)
            .toSorted();
        expect(text(shown ?? [])).toEqual(text(pairWarnings(sire, dam)));
      }),
      runs(400),
    );
  });
});

describe(`outcrosses (seed ${String(SEED)})`, () => {
  it('F of the first cross and of the return are those of the fish bred out', () => {
    fc.assert(
      fc.property(stock(16), (one) => {
        const line = one.candidates.filter((_, i) => i % 2 === 0);
        const input = {
          pedigree: buildPedigree(one.records),
          line,
          candidates: one.candidates,
          asOf: '2026-11-25',
        };
        for (const found of suggestOutcrosses(input)) {
          const { fishId, firstCross, returnToLine, returnTwice } = found;
          const partner = one.candidates.find(({ id }) => id === fishId);
          const mates = line.filter(
            ({ sex }) => sex === (partner?.sex === 'male' ? 'female' : 'male'),
          );
          if (!firstCross || mates.length === 0) continue;
          const bred = buildPedigree([
            ...one.records,
            ...mates.map(({ id }) => ({
              id: `x ${id}`,
              ...(partner?.sex === 'male' ? { sire: fishId, dam: id } : { sire: id, dam: fishId }),
            })),
          ]);
          const theta = (a: string, b: string): number =>
            coancestry(bred, bred.indexOf(a), bred.indexOf(b));
          const mean = (values: readonly number[]): number =>
            values.reduce((sum, value) => sum + value, 0) / values.length;
          expect(firstCross.mean).toBeCloseTo(mean(mates.map(({ id }) => theta(fishId, id))), 12);
          const returns = mates.flatMap(({ id }) =>
            line.filter((other) => other.id !== id).map((other) => theta(`x ${id}`, other.id)),
          );
          if (returnToLine === null) expect(returns).toEqual([]);
          else expect(returnToLine).toBeCloseTo(mean(returns), 12);
          const twice = mates.flatMap((mate) =>
            line.flatMap((second) =>
              line
                .filter((third) => new Set([mate.id, second.id, third.id]).size === 3)
                .map((third) => (theta(`x ${mate.id}`, third.id) + theta(second.id, third.id)) / 2),
            ),
          );
          if (returnTwice === null) expect(twice).toEqual([]);
          else expect(returnTwice).toBeCloseTo(mean(twice), 12);
        }
      }),
      runs(60),
    );
  });
});

describe(`allocation (seed ${String(SEED)})`, () => {
  const table = fc
    .tuple(fc.integer({ min: 0, max: 6 }), fc.integer({ min: 0, max: 6 }))
    .chain(([rows, columns]) =>
      fc.record({
        rows: fc.constant(rows),
        columns: fc.constant(columns),
        wanted: fc.nat({ max: 7 }),
        cost: fc.array(
          fc.oneof(
            { weight: 5, arbitrary: fc.integer({ min: -8, max: 16 }).map((n) => n / 16) },
            { weight: 1, arbitrary: fc.constant(Infinity) },
          ),
          { minLength: rows * columns, maxLength: rows * columns },
        ),
      }),
    );

  it('the fast choice costs as little as the best of all choices, and places as many', () => {
    fc.assert(
      fc.property(table, ({ rows, columns, wanted: count, cost }) => {
        const costs = Float64Array.from(cost);
        const fast = assignCheapest(costs, rows, columns, count);
        const best = assignExhaustively(costs, rows, columns, count);
        expect(fast.cells.length).toBe(best.cells.length);
        expect(fast.total).toBeCloseTo(best.total, 9);
        expect(new Set(fast.cells.map(([row]) => row)).size).toBe(fast.cells.length);
        expect(new Set(fast.cells.map(([, column]) => column)).size).toBe(fast.cells.length);
        for (const [row, column] of fast.cells)
          expect(costs[row * columns + column]).not.toBe(Infinity);
      }),
      runs(1500),
    );
  });

  it('an allocation is no worse than any random one, and F of each pair is its coancestry', () => {
    fc.assert(
      fc.property(stock(30), fc.array(fc.nat(), { minLength: 30, maxLength: 30 }), (one, draws) => {
        const pedigree = buildPedigree(one.records);
        const ids = (sex: Sex): string[] =>
          one.candidates.filter((fish) => fish.sex === sex).map(({ id }) => id);
        const [males, females] = [ids('male'), ids('female')];
        const found = allocatePairs({ pedigree, males, females });
        const index = (list: readonly string[]): number[] => list.map((id) => pedigree.indexOf(id));
        const block = coancestryBlock(pedigree, index(males), index(females));
        const theta = (sire: string, dam: string): number =>
          block[males.indexOf(sire) * females.length + females.indexOf(dam)] ?? NaN;
        for (const { sireId, damId, inbreeding } of found.pairs)
          expect(inbreeding).toBeCloseTo(theta(sireId, damId), 12);
        const shuffle = (list: readonly string[], skip: number): string[] =>
          list
            .map((id, k) => ({ id, at: draws[(k + skip) % 30] ?? 0 }))
            .toSorted((a, b) => a.at - b.at)
            .map(({ id }) => id);
        const [someMales, someFemales] = [shuffle(males, 0), shuffle(females, 7)];
        const count = Math.min(males.length, females.length);
        expect(found.pairs.length).toBe(count);
        let random = 0;
        for (let k = 0; k < count; k++) random += theta(someMales[k] ?? '', someFemales[k] ?? '');
        expect(found.totalInbreeding).toBeLessThanOrEqual(random + 1e-9);
      }),
      runs(150),
    );
  });
});
