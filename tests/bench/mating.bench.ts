import { performance } from 'node:perf_hooks';
import {
  allocatePairs,
  completePurpose,
  judgePairings,
  rankPairings,
  suggestOutcrosses,
  type PairingCandidate,
  type PairingInput,
  type WorthBasis,
} from '@linewright/mating';
import { inbreedingCoefficients } from '@linewright/kinship';
import { pedigreeFromArrays, seededChance, type Pedigree } from '@linewright/pedigree';

/** `generations` of equal size after one of founders; parents come from the generation before, a tenth of them breed. */
function inbredPedigree(size: number, generations: number, random: () => number): Pedigree {
  const each = Math.floor(size / (generations + 1));
  const sire = new Int32Array(size).fill(-1);
  const dam = new Int32Array(size).fill(-1);
  const breeders = Math.max(2, Math.floor(each / 10));
  for (let i = each; i < size; i++) {
    const first = (Math.floor(i / each) - 1) * each;
    // Males stand at even places, females at odd ones.
    sire[i] = first + 2 * Math.floor((random() * breeders) / 2);
    dam[i] = first + 2 * Math.floor((random() * breeders) / 2) + 1;
  }
  return pedigreeFromArrays(sire, dam);
}

/** Eight loci with three genotypes each, so that hardly two fish are alike. */
const GENOTYPES = {
  bl: ['Bl/Bl', 'Bl/bl', 'bl/bl'],
  dt: ['Dt/Dt', 'Dt/dt', 'dt/dt'],
  m: ['M/M', 'M/m', 'm/m'],
  c: ['C/C', 'C/c', 'c/c'],
  si: ['Si/Si', 'Si/si', 'si/si'],
  b: ['B/B', 'B/b', 'b/b'],
  mt: ['Mt/Mt', 'Mt/mt', 'mt/mt'],
  al: ['Al/Al', 'Al/al', 'al/al'],
};

function candidatesOf(pedigree: Pedigree, each: number, random: () => number): PairingCandidate[] {
  const pick = <T>(from: readonly T[]): T => from[Math.floor(random() * from.length)] as T;
  return Array.from({ length: 2 * each }, (_, k): PairingCandidate => ({
    id: pedigree.ids[pedigree.size - 1 - k] ?? '',
    sex: k % 2 === 0 ? 'male' : 'female',
    hatchedOn: pick(['2026-03-01', '2026-05-01', '2026-08-15']),
    genotypes: Object.fromEntries(
      Object.entries(GENOTYPES).map(([locus, texts]) => [locus, pick(texts)]),
    ),
    scores: [
      { traitId: 'form', value: 5 + 4 * random(), scoredOn: '2026-10-01' },
      { traitId: 'finnage', value: 5 + 4 * random(), scoredOn: '2026-10-01' },
    ],
  }));
}

/** Two traits with values, one of them within a range, and a look. */
const WORTH: WorthBasis = {
  purpose: completePurpose({
    traits: [
      { traitId: 'form', better: 'higher', low: 6, high: null, worth: 2 },
      { traitId: 'finnage', better: 'within', low: 6, high: 8, worth: 1 },
    ],
    looks: [{ look: { show: { bl: 'royal' } }, wanted: true, worth: 3, required: true }],
  }),
  traits: ['form', 'finnage'].map((traitId) => ({
    ...{ traitId, level: 7, additive: 0.6, commonBrood: 0.1, residual: 0.6 },
    line: { mean: 7, deviation: 1.1 },
  })),
  ...{ fry: 80, survival: 0.5, load: 0 },
};

/** 250,000 pairs of 1,000 candidates out of 100,000 fish judged in full, and the first page: processor time beside the time on the clock. */
function judgeAll(emit: (line: object) => void): void {
  const random = seededChance(7);
  const pedigree = inbredPedigree(100_000, 12, random);
  const candidates = candidatesOf(pedigree, 500, random).map((one) => ({
    ...one,
    values: {
      form: { value: random() - 0.5, standardError: 0.4 },
      finnage: { value: random() - 0.5, standardError: 0.4 },
    },
  }));
  // As the server has it: the stock with every F is loaded before anyone looks at pairs.
  const inbreeding = inbreedingCoefficients(pedigree);
  const input: PairingInput = {
    ...{ pedigree, inbreeding, candidates, asOf: '2026-11-25', worth: WORTH },
  };
  const start = performance.now();
  const before = process.cpuUsage();
  const ranking = rankPairings(input);
  const page = judgePairings(input, ranking.pairs(0, 25), ranking.best);
  emit({
    bench: 'mating',
    what: 'pairs and first page',
    seed: 7,
    fish: pedigree.size,
    considered: ranking.considered,
    rows: page.length,
    processorMs: Math.round(process.cpuUsage(before).user / 1000),
    ms: Math.round(performance.now() - start),
  });
}

/** Ranks 60 x 60 and 500 x 500, makes one page of rows, asks for outcrosses and allocates; one line a measurement. */
export async function run(emit: (line: object) => void): Promise<void> {
  const sizes = [
    { fish: 1500, generations: 10, each: 60 },
    { fish: 10_000, generations: 12, each: 60 },
    { fish: 12_000, generations: 11, each: 500 },
  ];
  judgeAll(emit);
  for (const { fish, generations, each } of sizes) {
    const random = seededChance(7);
    const pedigree = inbredPedigree(fish, generations, random);
    const candidates = candidatesOf(pedigree, each, random);
    const input: PairingInput = {
      pedigree,
      candidates,
      asOf: '2026-11-25',
      traits: [{ traitId: 'form' }, { traitId: 'finnage' }],
      wanted: [{ show: { bl: 'royal', dt: 'double' } }],
      unwanted: [{ show: { c: 'cambodian' } }],
    };
    const measure = <T>(what: string, work: () => T): T => {
      const start = performance.now();
      const result = work();
      emit({
        bench: 'mating',
        what,
        seed: 7,
        fish,
        candidates: candidates.length,
        ms: Math.round(performance.now() - start),
      });
      return result;
    };
    const ranking = measure('rank', () => rankPairings(input));
    emit({
      bench: 'mating',
      what: 'pairs',
      fish,
      considered: ranking.considered,
      kept: ranking.length,
    });
    measure('first page of 50 rows', () => ranking.rows(0, 50));
    const line = candidates.slice(0, Math.min(60, candidates.length / 2));
    measure('outcrosses', () =>
      suggestOutcrosses({ pedigree, line, candidates, asOf: '2026-11-25', limit: 20 }),
    );
    const ids = (sex: string): string[] =>
      candidates.filter((one) => one.sex === sex).map(({ id }) => id);
    measure('allocate all pairs', () =>
      allocatePairs({ pedigree, males: ids('male'), females: ids('female') }),
    );
    await Promise.resolve();
  }
}
