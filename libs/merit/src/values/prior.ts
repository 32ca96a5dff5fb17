import { MeritError } from '../merit-error.js';

/** What is taken as likely of a heritability before a score is looked at. */
export interface HeritabilityPrior {
  readonly name: string;
  /** Relative density at a heritability between 0 and 1; need not add up to 1. */
  readonly density: (heritability: number) => number;
  /** Where it comes from, and on what basis; null for one that takes all as equally likely. */
  readonly source: string | null;
}

/** All heritabilities equally likely. */
export const flatPrior: HeritabilityPrior = { name: 'flat', density: () => 1, source: null };

/**
 * A beta distribution with a given mean and standard deviation.
 *
 * @throws MeritError MERIT_OUT_OF_RANGE when no such distribution exists.
 */
export function betaPrior(
  name: string,
  mean: number,
  deviation: number,
  source: string,
): HeritabilityPrior {
  const size = (mean * (1 - mean)) / deviation ** 2 - 1;
  if (!(mean > 0 && mean < 1 && deviation > 0 && size > 0)) {
    throw new MeritError(
      'MERIT_OUT_OF_RANGE',
      `No prior has the mean ${mean} and the standard deviation ${deviation}: take a mean between 0 and 1 and a smaller deviation.`,
      { mean, deviation },
    );
  }
  const [a, b] = [mean * size, (1 - mean) * size];
  return { name, source, density: (h) => h ** (a - 1) * (1 - h) ** (b - 1) };
}

/**
 * A prior for body size and shape of fish, from one published range: length of common carp, 0.21 to 0.33 by the animal model and 0.24
 * to 0.34 as realised. The width, standard deviation 0.15, is ours: other traits and other fish differ by more than one study does.
 */
export const fishSizePrior: HeritabilityPrior = betaPrior(
  'size of fish',
  0.28,
  0.15,
  'Vandeputte M et al. (2008) Aquaculture 277:7-13, length of common carp (abstract read); width of our own choosing',
);
