import {
  carrierModel,
  cross,
  findLocus,
  goodnessOfFit,
  twoAlleleLocus,
  type CarrierEvidence,
} from '@linewright/heredity';
import { pedigreeFromArrays, seededChance, type Pedigree } from '@linewright/pedigree';

interface LineBred {
  readonly pedigree: Pedigree;
  readonly pairs: readonly (readonly [number, number])[];
  /** Copies of the recessive allele, dropped down the pedigree. */
  readonly copies: Int8Array;
}

/**
 * Lines of `pairs` spawns a generation and `young` recorded fish a spawn, sibs and cousins mated within the line, one spawn
 * in `outcross` by a male of another line.
 */
function lineBred(
  seed: number,
  shape: { fish: number; lines: number; pairs: number; young: number; outcross: number; q: number },
): LineBred {
  const random = seededChance(seed);
  const sire: number[] = [];
  const dam: number[] = [];
  const copies: number[] = [];
  const pairs: [number, number][] = [];
  const drop = (copiesOfParent: number) => (random() < copiesOfParent / 2 ? 1 : 0);
  const add = (s: number, d: number) => {
    sire.push(s);
    dam.push(d);
    copies.push(
      s < 0
        ? Number(random() < shape.q) + Number(random() < shape.q)
        : drop(copies[s]!) + drop(copies[d]!),
    );
    return sire.length - 1;
  };
  let latest = Array.from({ length: shape.lines }, () =>
    Array.from({ length: 2 * shape.pairs }, () => add(-1, -1)),
  );
  while (sire.length < shape.fish) {
    latest = latest.map((line, l) => {
      const next: number[] = [];
      for (let p = 0; p < shape.pairs; p++) {
        const from = random() < 1 / shape.outcross ? latest[(l + 1) % shape.lines]! : line;
        const males = from.filter((_, i) => i % 2 === 0);
        const females = line.filter((_, i) => i % 2 === 1);
        const s = males[Math.floor(random() * males.length)]!;
        const d = females[Math.floor(random() * females.length)]!;
        pairs.push([s, d]);
        for (let y = 0; y < shape.young && sire.length < shape.fish; y++) next.push(add(s, d));
      }
      return next.length >= 2 ? next : line;
    });
  }
  return {
    pedigree: pedigreeFromArrays(Int32Array.from(sire), Int32Array.from(dam)),
    pairs,
    copies: Int8Array.from(copies),
  };
}

function evidenceOf(
  { pedigree, pairs, copies }: LineBred,
  broods: number,
  seed: number,
): CarrierEvidence[] {
  const random = seededChance(seed);
  const step = Math.max(1, Math.floor(pairs.length / broods));
  return pairs
    .filter((_, i) => i % step === 0)
    .slice(0, broods)
    .map(([s, d], i) => {
      const share = (copies[s]! / 2) * (copies[d]! / 2);
      let doubles = 0;
      for (let n = 0; n < 60; n++) if (random() < share) doubles++;
      return {
        kind: 'brood',
        id: `brood ${i}`,
        sire: pedigree.ids[s]!,
        dam: pedigree.ids[d]!,
        counts: { single: 60 - doubles, double: doubles },
      };
    });
}

const founders = { general: { alleles: { Dt: 0.85, dt: 0.15 } } };

function time<T>(work: () => T): { ms: number; result: T } {
  const start = performance.now();
  const result = work();
  return { ms: Math.round((performance.now() - start) * 10) / 10, result };
}

function benchCrosses(emit: (line: object) => void): void {
  const ids = ['bl', 'si', 'op', 'mt', 'c', 'b', 'm', 'al'];
  const carriers = Object.fromEntries(
    ids.map((id) => [
      id,
      findLocus(id)
        .alleles.slice(0, 2)
        .map((one) => one.symbol)
        .join('/'),
    ]),
  );
  const own = Array.from({ length: 8 }, (_, i) =>
    twoAlleleLocus({
      id: `l${i}`,
      name: `L${i}`,
      symbols: [`A${i}`, `a${i}`],
      looks: ['x', 'y', 'z'],
    }),
  );
  const ownCarriers = Object.fromEntries(own.map((one, i) => [one.id, `A${i}/a${i}`]));
  for (const run of ['first', 'again', 'again']) {
    const catalogueCross = time(() => cross({ sire: carriers, dam: carriers }, ids));
    emit({
      bench: 'cross of 8 catalogue loci',
      run,
      ms: catalogueCross.ms,
      classes: catalogueCross.result.classes.length,
    });
    const largest = time(() => cross({ sire: ownCarriers, dam: ownCarriers }, own));
    emit({
      bench: 'cross of 8 loci, all incomplete',
      run,
      ms: largest.ms,
      classes: largest.result.classes.length,
    });
  }
}

function benchCarriers(emit: (line: object) => void): void {
  const shapes = {
    'separate lines, 2 pairs a generation': {
      fish: 10_000,
      lines: 40,
      pairs: 2,
      young: 8,
      outcross: Infinity,
      q: 0.15,
    },
    'lines with outcrosses, 2 pairs a generation': {
      fish: 10_000,
      lines: 40,
      pairs: 2,
      young: 8,
      outcross: 12,
      q: 0.15,
    },
    'lines with outcrosses, 4 pairs a generation': {
      fish: 10_000,
      lines: 20,
      pairs: 4,
      young: 8,
      outcross: 20,
      q: 0.15,
    },
  };
  for (const [name, shape] of Object.entries(shapes)) {
    const line = lineBred(1, shape);
    const evidence = evidenceOf(line, 300, 2);
    const input = { pedigree: line.pedigree, locus: findLocus('dt'), evidence, founders };
    const built = time(() => carrierModel(input, { sweeps: 200 }));
    const all = time(() => built.result.all());
    const method = built.result.method;
    emit({
      bench: `carriers: 10,000 fish, 300 broods, ${name}`,
      method: method.kind,
      uncertainFish: method.uncertainFish,
      largestTable: method.largestTable,
      buildMs: built.ms,
      allMs: all.ms,
      spawns: line.pairs.length,
    });
    const last = evidence.at(-1);
    if (method.kind === 'exact' && last?.kind === 'brood') {
      const added = time(() => built.result.withRecord({ ...last, id: 'one more' }));
      const asked = time(() => added.result.posterior(last.sire));
      emit({ bench: `carriers: one brood added, ${name}`, addMs: added.ms, askMs: asked.ms });
    }
  }
}

function benchFit(emit: (line: object) => void): void {
  const exact = time(() => goodnessOfFit([52, 17, 21, 6], [9, 3, 3, 1]));
  emit({
    bench: 'goodness of fit, 96 fish in 4 classes',
    ms: exact.ms,
    outcomes: exact.result.exact?.outcomes,
  });
}

/** One JSON line a measurement; seeded, nothing is asserted. */
export async function run(emit: (line: object) => void): Promise<void> {
  benchCrosses(emit);
  benchFit(emit);
  benchCarriers(emit);
  await Promise.resolve();
}
