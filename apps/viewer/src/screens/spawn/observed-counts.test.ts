import {
  cross as expectedOf,
  formatFraction,
  fractionToNumber,
  HIDDEN,
} from '@linewright/heredity';
import { describe, expect, it } from 'vitest';
import { foldClasses, observedDays, testedClasses, type ClassCount } from './observed-counts.js';

type Genotypes = Parameters<typeof expectedOf>[0]['sire'];

/** The classes as the API sends them. */
const classesOf = (sire: Genotypes, dam: Genotypes, loci: string[]) => ({
  classes: expectedOf({ sire, dam }, loci).classes.map((one) => ({
    phenotype: one.label,
    parts: one.parts.map((part) => ({
      locusIds: [...part.loci],
      phenotype: part.name,
      hidden: part.phenotype === HIDDEN,
    })),
    fraction: formatFraction(one.probability),
    probability: fractionToNumber(one.probability),
    expectedCount: null,
    fryForOne95: null,
    shares: [],
    genotypes: [],
  })),
});

const both = { bl: 'Bl/bl', dt: 'Dt/dt' };
const brood = classesOf(both, both, ['bl', 'dt']);

const count = (locusIds: string[], phenotype: string, number: number): ClassCount => ({
  id: `${locusIds.join()} ${phenotype} ${number}`,
  locusIds,
  phenotype,
  number,
  countedOn: '2025-03-01',
  ageDays: 90,
  note: null,
});

const sharesOf = (loci: string[]) =>
  Object.fromEntries((foldClasses(brood, loci) ?? []).map((one) => [one.phenotype, one.fraction]));

describe('expected classes folded onto some loci', () => {
  it('gives 3:1 at a dominant locus and 1:2:1 at one by dose, out of six classes', () => {
    expect(brood.classes).toHaveLength(6);
    expect(Object.values(sharesOf(['dt']))).toEqual(['3/4', '1/4']);
    expect(sharesOf(['dt'])['double tail']).toBe('1/4');
    expect(Object.values(sharesOf(['bl']))).toEqual(['1/2', '1/4', '1/4']);
  });

  it('leaves the classes as they are at all the loci, in any order', () => {
    const all = Object.fromEntries(brood.classes.map((one) => [one.phenotype, one.fraction]));
    expect(sharesOf(['dt', 'bl'])).toEqual(all);
  });

  it('has none where a locus was not worked out, or none is named', () => {
    expect(foldClasses(brood, ['dt', 'c'])).toBeNull();
    expect(foldClasses(brood, [])).toBeNull();
    expect(foldClasses({ classes: [] }, ['dt'])).toBeNull();
  });

  it('has none for one of two loci that make a look together', () => {
    const together = {
      ...brood.classes[0]!,
      parts: [{ locusIds: ['bl', 'dt'], phenotype: 'x', hidden: false }],
    };
    expect(foldClasses({ classes: [together] }, ['bl'])).toBeNull();
    expect(foldClasses({ classes: [together] }, ['dt', 'bl'])).toHaveLength(1);
  });
});

describe('the counts of a day', () => {
  const single = foldClasses(brood, ['dt'])!.find((one) => one.phenotype !== 'double tail')!;
  const blues = foldClasses(brood, ['bl'])!.map((one) => one.phenotype);

  it('are kept apart by locus: 44 young counted twice are not 88', () => {
    const classCounts = [
      count(['dt'], single.phenotype, 26),
      count(['dt'], 'double tail', 18),
      count(['bl'], blues[0]!, 20),
      count(['bl'], blues[1]!, 24),
    ];
    const [day, ...others] = observedDays({ classCounts }, brood);
    expect(others).toEqual([]);
    expect(day?.scorings.map(({ key, total }) => [key, total])).toEqual([
      ['dt', 44],
      ['bl', 44],
    ]);
    expect(day?.scorings.map(({ unexpected }) => unexpected)).toEqual([[], []]);
    expect(day?.scorings[0]?.byClass.get('double tail')).toBe(18);
  });

  it('name what is not expected within their own set only', () => {
    const plain = classesOf({ ...both, dt: 'Dt/Dt' }, both, ['bl', 'dt']);
    const classCounts = [count(['dt'], 'double tail', 2), count(['bl'], blues[0]!, 20)];
    const [day] = observedDays({ classCounts }, plain);
    expect(day?.scorings.map(({ unexpected }) => unexpected)).toEqual([
      [{ phenotype: 'double tail', number: 2 }],
      [],
    ]);
  });

  it('are one scoring whatever the order of the loci, and none is unexpected without an expectation', () => {
    const first = brood.classes[0]!.phenotype;
    const classCounts = [
      count(['bl', 'dt'], first, 9),
      count(['dt', 'bl'], brood.classes[1]!.phenotype, 3),
      count(['c'], 'cambodian', 4),
    ];
    const [day] = observedDays({ classCounts }, brood);
    expect(day?.scorings.map(({ key, total, expected }) => [key, total, expected?.length])).toEqual(
      [
        ['bl+dt', 12, 6],
        ['c', 4, undefined],
      ],
    );
    expect(day?.scorings[1]?.unexpected).toEqual([]);
  });
});

describe('classes that another locus hides', () => {
  // Albino hides melano in a quarter of the young: 9/16 plain, 3/16 melano, 4/16 not to be told.
  const carriers = { m: 'M/m', al: 'Al/al' };
  const crossed = classesOf(carriers, carriers, ['m', 'al']);
  const [plain, melano, hidden] = [
    'not melano',
    'melano (dense black)',
    'melano black not visible',
  ];
  const testedOf = (counts: [string, number][]) => {
    const classCounts = counts.map(([phenotype, number]) => count(['m'], phenotype, number));
    const found = observedDays({ classCounts }, crossed)[0]!.scorings[0]!;
    const tested = testedClasses(found);
    return {
      shares: Object.fromEntries(
        tested?.expected.map((one) => [one.phenotype, one.fraction]) ?? [],
      ),
      tested: tested?.tested,
      notSeen: tested?.notSeen,
      unexpected: found.unexpected.map((one) => one.phenotype),
    };
  };

  it('are no part of the test where nobody counted them: 3:1 among those that can be seen', () => {
    expect(
      testedOf([
        [plain!, 30],
        [melano!, 10],
      ]),
    ).toEqual({
      shares: { [plain!]: '3/4', [melano!]: '1/4' },
      tested: 40,
      notSeen: [hidden],
      unexpected: [],
    });
  });
  it('are part of it where they were counted, and what is unsure is not', () => {
    expect(
      testedOf([
        [plain!, 27],
        [melano!, 9],
        [hidden!, 12],
        ['unsure', 5],
      ]),
    ).toEqual({
      shares: { [plain!]: '9/16', [melano!]: '3/16', [hidden!]: '1/4' },
      tested: 48,
      notSeen: [],
      unexpected: ['unsure'],
    });
  });
});
