import type { DemoDisposition, DemoSex } from './scenario.js';

/** Loci that the demo follows, with symbols as the catalogue writes them: first allele, second allele. */
export const SYMBOLS = {
  bl: ['Bl', 'bl'],
  m: ['M', 'm'],
  c: ['C', 'c'],
  dt: ['Dt', 'dt'],
} as const;

export type DemoLocus = keyof typeof SYMBOLS;
export const LOCI: readonly DemoLocus[] = ['bl', 'm', 'c', 'dt'];

/** Names of what is seen with 0, 1 and 2 doses of the second allele, as in the catalogue. */
export const PHENOTYPES: Readonly<Record<DemoLocus, readonly [string, string, string]>> = {
  bl: ['turquoise (green)', 'royal blue', 'steel blue'],
  m: ['not melano', 'not melano', 'melano (dense black)'],
  c: ['dark body', 'dark body', 'cambodian'],
  dt: ['single tail', 'single tail', 'double tail'],
};

/** Doses of the second allele: one from the sire, one from the dam. */
export type Genome = Readonly<Record<DemoLocus, readonly [0 | 1, 0 | 1]>>;

/** A fish as the generator knows it: with its true genotype and breeding values, which no person sees. */
export interface SimulatedFish {
  readonly id: string;
  readonly person: 0 | 1;
  readonly line: number;
  readonly tag: string;
  readonly name: string | null;
  readonly sex: 'male' | 'female';
  readonly generation: number;
  readonly sire: SimulatedFish | null;
  readonly dam: SimulatedFish | null;
  readonly spawnId: string | null;
  /** Day of hatching; for a bought fish the day taken for it. */
  readonly hatchDay: number;
  readonly genome: Genome;
  readonly breedingValues: readonly number[];
  /** What scoring would find, in the order of the traits. */
  readonly values: readonly number[];
  /** How well it fits its line's aim; larger is better. */
  readonly merit: number;
  readonly origin: string | null;
  readonly note: string | null;
  /** Day it was chosen to stay; `null` for one that was not. */
  readonly keptDay: number | null;
  recordedSex: DemoSex;
  disposition: DemoDisposition;
  dispositionDay: number | null;
  reason: string | null;
  lastSpawnDay: number;
}

export function doses(fish: { readonly genome: Genome }, locus: DemoLocus): 0 | 1 | 2 {
  const [fromSire, fromDam] = fish.genome[locus];
  return (fromSire + fromDam) as 0 | 1 | 2;
}

export function genotypeText(fish: { readonly genome: Genome }, locus: DemoLocus): string {
  const [first, second] = SYMBOLS[locus];
  return (
    [`${first}/${first}`, `${first}/${second}`, `${second}/${second}`][doses(fish, locus)] ?? ''
  );
}
