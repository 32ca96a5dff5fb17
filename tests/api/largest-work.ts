import { randomUUID } from 'node:crypto';
import { today } from '../clock.js';
import type { RealIds } from './hostile-values.js';
import { creation } from '../new-records.js';

/** One request that makes the server work as hard as its limits let anyone. */
export interface Work {
  readonly name: string;
  readonly query: string;
  readonly variables: Readonly<Record<string, unknown>>;
}

/** One that is more than what is taken, and the code with which it is refused. */
export interface Refused extends Work {
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
  sizes: readonly number[] = [2, 5, 6, 8, 10, 12, 13],
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

/** Under aliases: they answer for what they do together. */
const aliased = (count: number, field: string): string =>
  times(count, (i) => `a${i}: ${field}`).join(' ');
const fits = (count: number): string =>
  `query ($input: FitInput!) { ${aliased(count, 'goodnessOfFit(input: $input) { pValue }')} }`;
const pairLists = (count: number): string => `query ($input: PairingInput!) {
  ${aliased(count, 'pairingCandidates(first: 200, input: $input) { totalCount }')}
}`;

const broodSize = 'query ($input: BroodSizeInput!) { broodSize(input: $input) }';

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

const lociOf = (sizes: readonly number[]): Work[] =>
  sizes.map((alleles) => ({
    name: `a locus of ${alleles} alleles`,
    query: creation('defineLocus'),
    variables: locus(alleles),
  }));

const previewed = `mutation ($text: String!) {
  previewImport(fileName: "a.csv", text: $text) { problems { code } }
}`;
const COSTLY = 'QUERY_TOO_COSTLY';
/** Looks at a line file that was sent. */
export const shared = 'mutation ($file: ID!) { previewShare(file: $file) { __typename } }';

const allCrosses = (loci: readonly UsableLocus[]): Work[] => [
  ...crosses(loci, 'both alleles at each', bothAlleles),
  ...crosses(loci, 'one allele in doubt', inDoubt),
  ...crosses(loci, 'nothing known', unknown),
];

const counts = (): Work[] => [
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
    name: `nine exact tests of ${what} in one request`,
    query: fits(9),
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
        shares: times(200, (i) => ({ weight: 0.005, fraction: `${i + 1}/9001` })),
      },
    },
  },
  ...lociOf([2, 7]),
];

/** Tables too large to be looked at while one waits: a long computation looks at them. */
const tables: readonly (readonly [name: string, text: string])[] = [
  [
    'a table of 50,000 columns',
    `tag,${'a,'.repeat(50_000)}\n${`x,${'1,'.repeat(50_000)}\n`.repeat(20)}`,
  ],
  ['a table of a million columns', `tag,${'a,'.repeat(1_000_000)}\n`],
  ['one line of 15 MB', 'x'.repeat(15_000_000)],
  ['a table of 15 MB in short lines', `tag,sire\n${'a,b\n'.repeat(3_700_000)}`],
];

/** Begins an import, or a look at one. */
export const begun = `mutation ($input: BeginImportInput!) {
  beginImport(input: $input) { computation { id } }
}`;

/** Files of the largest that each limit lets in. */
export const filesWork = (partnersFile: string): Work[] => [
  ...tables.map(([name, text]) => ({
    name: `${name}, looked at`,
    query: begun,
    variables: { input: { id: randomUUID(), purpose: 'LOOK', fileName: 'a.csv', text } },
  })),
  ...[900, 1_900, 9_000].map((rows) => ({
    name: `a table of ${rows} fish, each the child of those before`,
    query: previewed,
    variables: {
      text: `tag,sire,dam,sex\n${times(rows, (i) => `q${i},${i < 2 ? '' : `q${i - 2}`},${i < 2 ? '' : `q${i - 1}`},${i % 2 ? 'female' : 'male'}`).join('\n')}`,
    },
  })),
  {
    name: 'a table of which every line is wrong',
    query: previewed,
    variables: { text: `tag,sire,dam,sex,hatched\n${'a,a,a,neither,never\n'.repeat(1_900)}` },
  },
  { name: 'a partner file of many fish', query: shared, variables: { file: partnersFile } },
];

/** What each limit keeps out: refused, and standing all the same. */
export const moreThanIsTaken = (loci: readonly UsableLocus[]): Refused[] => [
  ...[bothAlleles, inDoubt, unknown].flatMap((genotype) =>
    crosses(loci, 'too many', genotype, [loci.length]).map((work) => ({
      ...work,
      code: 'TOO_LARGE',
    })),
  ),
  { name: 'twenty tests', query: fits(20), variables: classes(2, 9, () => '1/2'), code: COSTLY },
  { name: 'twenty lists of pairs', query: pairLists(20), variables: { input: {} }, code: COSTLY },
  ...lociOf([14, 20, 200]).map((work) => ({ ...work, code: 'LOCUS_INVALID' })),
  ...tables.map(([name, text]) => ({
    ...{ name, query: previewed, variables: { text }, code: 'IMPORT_LONG' },
  })),
];

/** Line files that none is, by name. */
export const noLineFiles: readonly (readonly [string, string])[] = [
  ['a partner file of brackets', '['.repeat(15_000_000)],
  ['a partner file of small parts', `[${'{"a":1},'.repeat(1_700_000)}1]`],
  ['a partner file larger than one may be', 'x'.repeat(30_000_000)],
  [
    'a partner file of as many parts as are taken, and no line',
    `{"format":"linewright-line","version":2,"x":[${'0,'.repeat(499_000)}0]}`,
  ],
];

/** What is asked of the whole stock, as large as each limit lets it be. */
export const stockWork = ({ males, females, fish, lines, spawns }: RealIds): Work[] => [
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
    name: 'eighteen lists of all pairs in one request',
    query: pairLists(18),
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
  ...[{ lineId: null }, null].map((line, before) => ({
    name: `two hundred fish ${line === null ? 'put on hold' : 'without a line'} in one act`,
    query: `mutation ($input: ChangeFishTogetherInput!) {
      changeFishTogether(input: $input) { fish { id } history { id } inTheWay { id } } }`,
    variables: {
      input: {
        fish: fish?.slice(0, 200).map((id) => ({ id, revision: 1 + before })),
        ...(line === null ? { decision: { disposition: 'HOLD', on: today() } } : { line }),
      },
    },
  })),
  {
    name: 'young of a thousand tags',
    query: creation('addFishToSpawn', 'id tag'),
    variables: {
      input: { spawnId: spawns?.[0], tags: times(600, (i) => `many-${i}`), number: 600 },
    },
  },
];

/** Crosses and counts of the largest that each limit lets in: the sizes at which a limit set too high is felt. */
export const largestCounts = {
  crosses: (loci: readonly UsableLocus[]): Work[] => allCrosses(loci),
  'counts and loci': (): Work[] => counts(),
};
