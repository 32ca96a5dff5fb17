import {
  inbreedingCoefficients,
  relationshipInverse,
  withinFamilyVariance,
} from '@linewright/kinship';
import type { Pedigree } from '@linewright/pedigree';
import { MeritError } from '../merit-error.js';
import { MomentsSolver } from '../threshold/threshold-moments.js';
import { locusModel } from './locus-model.js';
import { pedigreeLogLikelihood } from './pedigree-likelihood.js';

export type InheritanceCode =
  | 'not-inherited'
  | 'one-recessive'
  | 'one-dominant'
  | 'two-both-recessive'
  | 'two-either-recessive'
  | 'two-both-dominant'
  | 'two-either-dominant'
  | 'many';

/** How well one way of inheritance explains what was seen. */
export interface WeighedHypothesis {
  readonly code: InheritanceCode;
  /** In plain words. */
  readonly meaning: string;
  readonly logLikelihood: number;
  /** Quantities that were fitted. */
  readonly fitted: number;
  /** Share of belief among these hypotheses, by likelihood with a fee for fitted quantities (Akaike 1974). */
  readonly weight: number;
  /** Allele frequency among founders, share of fish, or heritability of the liability. */
  readonly estimate: number;
}

export interface WeighedInheritance {
  /** The best first. */
  readonly hypotheses: readonly WeighedHypothesis[];
  /** Null when no class of hypotheses has 95 % of the weight: cannot tell yet. */
  readonly verdict: 'not inherited' | 'one locus' | 'two loci' | 'many loci' | null;
}

const LOCI: readonly {
  readonly code: InheritanceCode;
  readonly meaning: string;
  readonly loci: 1 | 2;
  readonly shows: (copies: readonly number[]) => boolean;
}[] = [
  {
    code: 'one-recessive',
    meaning: 'One locus; a fish shows it with two copies.',
    loci: 1,
    shows: ([a]) => a === 2,
  },
  {
    code: 'one-dominant',
    meaning: 'One locus; a fish shows it with one copy or two.',
    loci: 1,
    shows: ([a]) => a! > 0,
  },
  {
    code: 'two-both-recessive',
    meaning: 'Two loci; a fish shows it with two copies at both.',
    loci: 2,
    shows: ([a, b]) => a === 2 && b === 2,
  },
  {
    code: 'two-either-recessive',
    meaning: 'Two loci; a fish shows it with two copies at either.',
    loci: 2,
    shows: ([a, b]) => a === 2 || b === 2,
  },
  {
    code: 'two-both-dominant',
    meaning: 'Two loci; a fish shows it with a copy at both.',
    loci: 2,
    shows: ([a, b]) => a! > 0 && b! > 0,
  },
  {
    code: 'two-either-dominant',
    meaning: 'Two loci; a fish shows it with a copy at either.',
    loci: 2,
    shows: ([a, b]) => a! > 0 || b! > 0,
  },
];

/**
 * One locus, two, or many: weighs ways of inheritance of a yes/no trait over a whole pedigree.
 *
 * Loci are autosomal and unlinked, founders in Hardy and Weinberg's proportions with one allele frequency, fitted for each hypothesis;
 * a fish misread now and then is allowed for by `slip`. Many loci: a normal liability with a threshold, its likelihood by expectation
 * propagation ({@link MomentsSolver}). Families that are on record because a fish showed the trait make it look more common than it is.
 *
 * @param seen 1 shown, 0 not shown, -1 not looked at, by fish.
 * @param slip chance that a look is read wrongly. Default 0.01, of our own choosing.
 * @throws MeritError MERIT_TOO_FEW when none shows it or all do; MERIT_LENGTH_MISMATCH. A hypothesis that is too large for the pedigree is
 * left out.
 */
export function weighInheritance(
  pedigree: Pedigree,
  seen: ArrayLike<number>,
  slip = 0.01,
): WeighedInheritance {
  const looks = Array.from(seen).filter((value) => value >= 0);
  const shown = looks.filter((value) => value === 1).length;
  if (shown === 0 || shown === looks.length)
    throw new MeritError(
      'MERIT_TOO_FEW',
      `${shown} of ${looks.length} fish show it: some must, and some must not.`,
      { shown, looked: looks.length },
    );
  const share = shown / looks.length;
  const found = [
    {
      code: 'not-inherited' as const,
      meaning: 'Not inherited: every fish is as likely to show it.',
      logLikelihood: shown * Math.log(share) + (looks.length - shown) * Math.log1p(-share),
      fitted: 1,
      estimate: share,
    },
    ...LOCI.flatMap(({ shows, loci, code, meaning }) => {
      const best = bestFrequency((frequency) => {
        const chance = (copies: readonly number[]) => (shows(copies) ? 1 - slip : slip);
        return pedigreeLogLikelihood(pedigree, seen, locusModel(loci, frequency, chance));
      });
      return best === null ? [] : [{ code, meaning, fitted: 1, ...best }];
    }),
    manyLoci(pedigree, seen),
  ];
  return weighed(found);
}

function weighed(found: readonly Omit<WeighedHypothesis, 'weight'>[]): WeighedInheritance {
  const best = Math.max(...found.map(({ logLikelihood, fitted }) => logLikelihood - fitted));
  const raw = found.map(({ logLikelihood, fitted }) => Math.exp(logLikelihood - fitted - best));
  const total = raw.reduce((sum, w) => sum + w, 0);
  const hypotheses = found
    .map((one, k) => ({ ...one, weight: raw[k]! / total }))
    .sort((a, b) => b.weight - a.weight);
  const classes = [
    ['not inherited', 'not-'],
    ['one locus', 'one-'],
    ['two loci', 'two-'],
    ['many loci', 'many'],
  ] as const;
  const verdict = classes.find(
    ([, start]) =>
      hypotheses.reduce(
        (sum, { code, weight }) => sum + (code.startsWith(start) ? weight : 0),
        0,
      ) >= 0.95,
  );
  return { hypotheses, verdict: verdict?.[0] ?? null };
}

function bestFrequency(
  log: (frequency: number) => number,
): { readonly estimate: number; readonly logLikelihood: number } | null {
  try {
    let estimate = 0.5;
    let logLikelihood = -Infinity;
    for (let k = 1; k < 20; k++) {
      const value = log(k / 20);
      if (value > logLikelihood) [estimate, logLikelihood] = [k / 20, value];
    }
    let step = 0.05;
    for (let k = 0; k < 8; k++) {
      step /= 2;
      for (const next of [estimate - step, estimate + step]) {
        const value = next > 0 && next < 1 ? log(next) : -Infinity;
        if (value > logLikelihood) [estimate, logLikelihood] = [next, value];
      }
    }
    return { estimate, logLikelihood };
  } catch (error) {
    if (error instanceof MeritError && error.code === 'MERIT_TOO_LARGE') return null;
    throw error;
  }
}

/** The best heritability of the liability, by the likelihood with breeding values integrated out. */
function manyLoci(pedigree: Pedigree, seen: ArrayLike<number>): Omit<WeighedHypothesis, 'weight'> {
  const within = withinFamilyVariance(pedigree, inbreedingCoefficients(pedigree));
  const logDeterminant = within.reduce((sum, value) => sum + Math.log(value), 0);
  const inverse = { ...relationshipInverse(pedigree), logDeterminant };
  const fish = Int32Array.from({ length: pedigree.size }, (_, i) => i);
  const solver = new MomentsSolver({
    scores: Int32Array.from(seen),
    classes: 2,
    fixed: [],
    random: [
      { name: 'additive', levels: pedigree.size, slots: [{ trait: 0, level: fish }], inverse },
    ],
  });
  const at = (heritability: number): number => {
    const { logMarginal, variance } = solver.at([heritability / (1 - heritability)]);
    // The threshold is taken at its best, not integrated out.
    return logMarginal - 0.5 * Math.log(2 * Math.PI * variance[0]!);
  };
  let [estimate, logLikelihood] = [0, -Infinity];
  for (let k = 1; k < 20; k++) {
    const value = at(k / 20);
    if (value > logLikelihood) [estimate, logLikelihood] = [k / 20, value];
  }
  return {
    code: 'many',
    meaning:
      'Many loci, each of small effect, and what is not inherited; a fish shows it once these add up to enough.',
    logLikelihood,
    fitted: 2,
    estimate,
  };
}
