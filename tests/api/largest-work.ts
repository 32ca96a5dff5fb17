import { randomUUID } from 'node:crypto';
import { daysAgo } from '../clock.js';
import type { RealIds } from './hostile-values.js';

/** One request that makes the server work as hard as its limits let anyone. */
export interface Work {
  readonly name: string;
  readonly query: string;
  readonly variables: Readonly<Record<string, unknown>>;
}

/** One that asks for more than the server takes, and the code of the error that says so. */
export interface RefusedWork extends Work {
  readonly code: string;
}

const times = <T>(count: number, make: (i: number) => T): T[] =>
  Array.from({ length: count }, (_, i) => make(i));

/** A locus that can be computed with, and the symbols of its alleles. */
export interface UsableLocus {
  readonly id: string;
  readonly symbols: readonly string[];
}

type Genotype = (locus: UsableLocus) => string;
const bothAlleles: Genotype = ({ symbols }) => `${symbols[0] ?? ''}/${symbols.at(-1) ?? ''}`;
const inDoubt: Genotype = ({ symbols }) => `${symbols[0] ?? ''}/-`;
const unknown: Genotype = () => '-/-';

const cross = `query ($input: CrossInput!) {
  cross(input: $input) { assumed locusIds classes { phenotype fraction shares { weight fraction } fryForOne95 } }
}`;
const crosses = (
  loci: readonly UsableLocus[],
  how: string,
  genotype: Genotype,
  sizes: readonly number[] = [2, 5, 6, 8, 10, 12],
): Work[] =>
  sizes.map((many) => {
    const parent = loci
      .slice(0, many)
      .map((locus) => ({ locusId: locus.id, genotype: genotype(locus) }));
    return {
      name: `a cross of ${many} loci, ${how}`,
      query: cross,
      variables: { input: { sire: parent, dam: parent, broodSize: 1_000_000 } },
    };
  });

const fit = `query ($input: FitInput!) { goodnessOfFit(input: $input) { method pValue verdict } }`;
const classes = (count: number, fish: number, fraction: (i: number) => string) => ({
  input: {
    observed: times(count, (i) => ({ name: `class ${i}`, observed: fish, fraction: fraction(i) })),
  },
});

const classesOf = (count: number, fish: (i: number) => number, fraction: string) => ({
  input: {
    observed: times(count, (i) => ({ name: `class ${i}`, observed: fish(i), fraction })),
  },
});

/** As many as the cost of one request lets anyone ask for under aliases: they answer for what they do together. */
const aliases = (count: number, field: string): string =>
  times(count, (i) => `a${i}: ${field}`).join(' ');
const fits = (count: number): string =>
  `query ($input: FitInput!) { ${aliases(count, 'goodnessOfFit(input: $input) { pValue }')} }`;
const pairLists = (count: number): string =>
  `query ($input: PairingInput!) {
    ${aliases(count, 'pairingCandidates(first: 200, input: $input) { totalCount }')}
  }`;
const MOST_FITS = 9;
const MOST_PAIR_LISTS = 18;

const broodSize = 'query ($input: BroodSizeInput!) { broodSize(input: $input) }';

/** Alleles of one locus. */
const MOST_ALLELES = 7;
const define = 'mutation ($input: DefineLocusInput!) { defineLocus(input: $input) { id } }';
const locus = (alleles: number) => {
  const symbols = times(alleles, (i) => `A${i}`);
  const pairs = symbols.flatMap((a, i) => symbols.slice(i).map((b) => `${a}/${b}`));
  return {
    input: {
      ...{ locusId: `wide${alleles}`, name: `Wide ${alleles}`, note: 'x'.repeat(5_000) },
      alleles: symbols.map((symbol) => ({ symbol, name: `Allele ${symbol}` })),
      looks: pairs
        .slice(0, 200)
        .map((genotype, i) => ({ genotype, phenotype: `Look ${i % 50}`, survival: '1/2' })),
    },
  };
};

const begun = `mutation ($id: ID!, $text: String!) {
  beginImport(input: { id: $id, fileName: "a.csv", purpose: LOOK, text: $text }) { computation { id } }
}`;
const previewed = `mutation ($text: String!) {
  previewImport(fileName: "a.csv", text: $text) { problems { code } }
}`;
const shared = 'mutation ($text: String!) { previewShare(text: $text) { __typename } }';

/** Values of a partner's file. */
const MOST_VALUES = 500_000;

const valuesIn = (value: unknown): number =>
  typeof value === 'object' && value !== null
    ? Object.values(value).reduce<number>((sum, one) => sum + 1 + valuesIn(one), 1)
    : 1;

/** A line file as it was exported, filled with fish of its own until it holds as much as is taken. */
const fullShare = (share: string): string => {
  const file = JSON.parse(share) as { records: { fish: Record<string, unknown>[] } };
  const [fish] = file.records.fish;
  const room = Math.floor((MOST_VALUES * 0.95 - valuesIn(file)) / (valuesIn(fish) + 1));
  const more = times(room, (i) => ({ ...fish, id: randomUUID(), tag: `full-${i}` }));
  file.records.fish.push(...more);
  return JSON.stringify(file);
};

const heredity = (loci: readonly UsableLocus[]): Work[] => [
  ...crosses(loci, 'both alleles at each', bothAlleles),
  ...crosses(loci, 'one allele in doubt', inDoubt),
  ...crosses(loci, 'nothing known', unknown),
  { name: 'an exact test of two classes', query: fit, variables: classes(2, 99_999, () => '1/2') },
  { name: 'an exact test of three classes', query: fit, variables: classes(3, 209, () => '1/3') },
  {
    name: 'an exact test of a hundred classes',
    query: fit,
    variables: {
      input: {
        observed: times(100, (i) => ({
          ...{ name: `class ${i}`, observed: i === 0 ? 3 : 0, fraction: '1/100' },
        })),
      },
    },
  },
  ...[
    ['a hundred classes', classesOf(100, (i) => (i === 0 ? 3 : 0), '1/100')] as const,
    ['two classes', classesOf(2, () => 99_999, '1/2')] as const,
  ].map(([what, variables]) => ({
    name: `${MOST_FITS} exact tests of ${what} in one request`,
    query: fits(MOST_FITS),
    variables,
  })),
  {
    name: 'sixteen classes and nine fish',
    query: fit,
    variables: {
      input: {
        observed: times(16, (i) => ({
          ...{ name: `class ${i}`, observed: i < 9 ? 1 : 0, fraction: '1/16' },
        })),
      },
    },
  },
  ...[1, 2, 5, 9].map((fish) => ({
    name: `drawn broods of ${fish} fish in each of 200 classes`,
    query: fit,
    variables: classes(200, fish, () => '1/200'),
  })),
  {
    name: 'drawn broods of one common class and many rare ones',
    query: fit,
    variables: {
      input: {
        observed: times(200, (i) => ({
          name: `class ${i}`,
          observed: i === 0 ? 999_800 : 1,
          fraction: i === 0 ? '9999999999/10000000000' : '1/1000000000000',
        })),
      },
    },
  },
  ...['1/2', '1/1000', '1/9000'].map((fraction) => ({
    name: `100,000 of a class of ${fraction}`,
    query: broodSize,
    variables: { input: { fraction, atLeast: 100_000, certainty: 0.999999 } },
  })),
  {
    name: '100,000 of a class of 200 possible shares',
    query: broodSize,
    variables: {
      input: {
        ...{ fraction: '1/2', atLeast: 100_000, certainty: 0.9999 },
        shares: times(200, (i) => ({ weight: 0.005, fraction: `${i + 12}/100003` })),
      },
    },
  },
  ...[2, MOST_ALLELES].map((alleles) => ({
    name: `a locus of ${alleles} alleles`,
    query: define,
    variables: locus(alleles),
  })),
];

const pedigree = (rows: number, more = ''): string =>
  times(rows, (i) => {
    const parents = i < 2 ? ',' : `q${i - 2 - (i % 2)},q${i - 1 - (i % 2)}`;
    return `q${i},${parents},${i % 2 ? 'female' : 'male'}${more}`;
  }).join('\n');

/** Files too long to wait for: looked at by a long computation, whose end is waited for. */
const longFiles = (): Work[] =>
  [
    [
      'a table of 50,000 columns',
      `tag,${'a,'.repeat(50_000)}\n${`x,${'1,'.repeat(50_000)}\n`.repeat(20)}`,
    ] as const,
    ['a table of a million columns', `tag,${'a,'.repeat(1_000_000)}\n`] as const,
    ['one line of 15 MB', 'x'.repeat(15_000_000)] as const,
    ['a table of 15 MB in short lines', `tag,sire\n${'a,b\n'.repeat(3_700_000)}`] as const,
    [
      'a table of 30,000 fish, each the child of those before',
      `tag,sire,dam,sex,line\n${pedigree(30_000, ',A')}`,
    ] as const,
  ].map(([name, text]) => ({ name, query: begun, variables: { id: randomUUID(), text } }));

const files = (share: string): Work[] => [
  ...[900, 1_900, 9_000].map((rows) => ({
    name: `a table of ${rows} fish, each the child of those before`,
    query: previewed,
    variables: {
      text: `tag,sire,dam,sex\n${pedigree(rows)}`,
    },
  })),
  {
    name: 'a table of which every line is wrong',
    query: previewed,
    variables: { text: `tag,sire,dam,sex,hatched\n${'a,a,a,neither,never\n'.repeat(1_900)}` },
  },
  {
    name: 'a partner file of as many fish as are taken',
    query: shared,
    variables: { text: fullShare(share) },
  },
];

const stock = ({ males, females, fish, lines, spawns }: RealIds): Work[] => [
  {
    name: 'a pair with the largest brood',
    query:
      'query ($s: ID!, $d: ID!) { pairOutlook(sireId: $s, damId: $d, broodSize: 5000) { __typename } }',
    variables: { s: males?.[0], d: females?.[0] },
  },
  {
    name: 'a planned brood of a million',
    query: `query ($s: ID!, $d: ID!) {
      plannedBrood(sireId: $s, damId: $d, broodSize: 1000000) { __typename }
    }`,
    variables: { s: males?.[0], d: females?.[0] },
  },
  {
    name: 'test matings of 100 fry',
    query:
      'query ($input: TestMatingsInput!) { testMatings(input: $input) { matings { name bits } } }',
    variables: { input: { fishId: fish?.[0], locusId: 'dt', fry: 100 } },
  },
  {
    name: 'all pairs, and many wishes',
    query: `query ($input: PairingInput!) {
      pairingCandidates(first: 200, input: $input) { totalCount edges { node { __typename } } }
    }`,
    variables: { input: { wantClasses: times(40, () => 'dt:double') } },
  },
  {
    name: 'all pairs',
    query: `query ($input: PairingInput!) {
      pairingCandidates(first: 200, input: $input) { totalCount edges { node { __typename } } }
    }`,
    variables: { input: {} },
  },
  {
    name: `${MOST_PAIR_LISTS} lists of all pairs in one request`,
    query: pairLists(MOST_PAIR_LISTS),
    variables: { input: {} },
  },
  {
    name: 'care of two months',
    query: `query { careTasks(from: "2026-01-01", to: "2026-03-02", zone: "UTC") { __typename } }`,
    variables: {},
  },
  {
    name: 'new blood for a line',
    query: 'query ($input: OutcrossInput!) { outcrosses(input: $input) { __typename } }',
    variables: { input: { lineId: lines?.[0], first: 100 } },
  },
  {
    name: 'a pedigree of everything',
    query: `query ($id: ID!) {
      pedigree(fishId: $id, ancestorGenerations: 30, descendantGenerations: 30, limit: 5000) { __typename }
    }`,
    variables: { id: fish?.[0] },
  },
  // One after the other: the second finds what the first changed.
  ...[{ lineId: null }, null].map((line, acts) => ({
    name: `two hundred fish ${line === null ? 'put on hold' : 'without a line'} in one act`,
    query: `mutation ($input: ChangeFishTogetherInput!) {
      changeFishTogether(input: $input) { fish { id } history { id } inTheWay { id } } }`,
    variables: {
      input: {
        fish: fish?.slice(0, 200).map((id) => ({ id, revision: 1 + acts })),
        ...(line === null ? { decision: { disposition: 'HOLD', on: daysAgo(1) } } : { line }),
      },
    },
  })),
  {
    name: 'young of a thousand tags',
    query: 'mutation ($input: AddFishToSpawnInput!) { addFishToSpawn(input: $input) { id tag } }',
    variables: {
      input: { spawnId: spawns?.[0], tags: times(600, (i) => `many-${i}`), number: 600 },
    },
  },
];

/** What is worked out of the largest that each limit lets in: the sizes at which a limit set too high is felt. */
export const largestWork = (ids: RealIds, loci: readonly UsableLocus[], share: string): Work[] => [
  ...heredity(loci),
  ...files(share),
  ...longFiles(),
  ...stock(ids),
];

/** One step beyond: what is too much is told, and was not worked out first. */
export const refusedWork = (loci: readonly UsableLocus[]): RefusedWork[] => [
  ...crosses(loci, 'both alleles at each', bothAlleles, [loci.length]).map((work) => ({
    ...work,
    code: 'TOO_LARGE',
  })),
  ...[MOST_ALLELES + 1, 20, 200].map((alleles) => ({
    name: `a locus of ${alleles} alleles`,
    query: define,
    variables: locus(alleles),
    code: 'LOCUS_INVALID',
  })),
  {
    name: `${MOST_FITS + 1} tests in one request`,
    query: fits(MOST_FITS + 1),
    variables: classes(2, 9, () => '1/2'),
    code: 'QUERY_TOO_COSTLY',
  },
  {
    name: `${MOST_PAIR_LISTS + 1} lists of all pairs in one request`,
    query: pairLists(MOST_PAIR_LISTS + 1),
    variables: { input: {} },
    code: 'QUERY_TOO_COSTLY',
  },
  ...longFiles().map(({ name, variables: { text } }) => ({
    ...{ name: `${name}, to wait for`, query: previewed, variables: { text } },
    code: 'IMPORT_LONG',
  })),
  ...[
    ['brackets', '['.repeat(15_000_000)],
    [
      'as many parts as are taken, without a record',
      `{"format":"linewright-line","version":2,"x":[${'0,'.repeat(499_000)}0]}`,
    ],
    ['small parts', `[${'{"a":1},'.repeat(1_700_000)}1]`],
  ].map(([what, text]) => ({
    ...{ name: `a partner file of ${what}`, query: shared, variables: { text } },
    code: 'SHARE_INVALID',
  })),
];
