import {
  type CrossExpectation,
  type FitResult,
  type Locus,
  type GenotypeSet,
  HeredityError,
  type PairExpectation,
  type PhenotypeClass,
  type PossibleShare,
  allGenotypes,
  broodSizeFor,
  dominanceOfLooks,
  findLocus,
  formatFraction,
  formatGenotype,
  fractionToNumber,
  lociWith,
  phenotypesOf,
  possibleShares,
  sources,
  HIDDEN,
} from '@linewright/heredity';
import type {
  CrossClassModel,
  CrossExpectationModel,
  FitResultModel,
  LocusModel,
} from './heredity.model.js';

const orNull = (texts: readonly string[]): string | null =>
  texts.length === 0 ? null : texts.join(' ');

const looks = (locus: Locus): { genotype: string; phenotype: string }[] => {
  if (!locus.computable) return [];
  // A withdrawn locus of the person's stays readable; the lib would refuse it as an input.
  const readable: Locus = { ...locus, status: 'current' };
  return allGenotypes(readable).map((genotype) => ({
    genotype: formatGenotype(readable, genotype),
    phenotype: phenotypesOf(readable, genotype)
      .map((p) => p.phenotype.name)
      .join(' or '),
  }));
};

const citation = (id: string): string => {
  const source = sources.find((s) => s.id === id);
  return source === undefined ? id : `${source.citation} (${source.basis})`;
};

const asSentence = (text: string): string =>
  `${text.charAt(0).toUpperCase()}${text.slice(1).replace(/\.$/, '')}.`;

export const toLocus = (locus: Locus): LocusModel => ({
  id: locus.id,
  own: locus.origin === 'own',
  version: locus.version,
  isWithdrawn: locus.status === 'withdrawn',
  recordId: null,
  revision: null,
  visible: locus.phenotypes.map(({ id, name }) => ({ id, name })),
  notations: locus.notations.map((one) => ({
    id: one.id,
    name: one.name,
    symbols: Object.entries(one.symbols)
      .map(([symbol, allele]) => `${symbol} = ${allele}`)
      .join(', '),
  })),
  name: locus.name,
  alleles: locus.alleles.map(({ id, symbol, name }) => ({ id, symbol, name })),
  // A person states looks, not dominance: it follows from them, and anew with each revision.
  dominance:
    locus.origin === 'own' && locus.dominance === 'unknown'
      ? dominanceOfLooks(locus)
      : locus.dominance,
  phenotypes: looks(locus),
  computable: locus.computable,
  whyNotComputable: locus.whyNot ?? null,
  confidence: locus.origin === 'own' ? 'own' : locus.confidence,
  confidenceNote: locus.dominanceNote === '' ? null : locus.dominanceNote,
  epistasis: orNull([...locus.interplay, ...locus.hiddenBy.map((h) => asSentence(h.why))]),
  risks: orNull(locus.risks),
  scorableFromDays:
    locus.scoring.fromWeeks === null ? null : Math.round(locus.scoring.fromWeeks * 7),
  sources: locus.sources.map(citation),
  alternativeSymbols: locus.notations.map(
    (n) =>
      `${n.name}: ${Object.entries(n.symbols)
        .map(([symbol, allele]) => `${symbol} = ${allele}`)
        .join(', ')}. ${n.note}`,
  ),
  note: orNull(locus.notes),
});

const CERTAINTY = 0.95;

/** What share each class may be, pair by pair that two uncertain parents may be. */
type SharesOf = (phenotypeClass: PhenotypeClass) => readonly PossibleShare[];

const certain: SharesOf = ({ probability }) => [{ weight: 1, probability }];

const fryForOne = (shares: readonly PossibleShare[]): number | null => {
  if (shares.length === 0) return null;
  try {
    return broodSizeFor({ probability: shares, atLeast: 1, certainty: CERTAINTY });
  } catch (error) {
    if (error instanceof HeredityError && error.code === 'BROOD_SIZE_UNREACHABLE') return null;
    throw error;
  }
};

const sharesOf = (pair: PairParents, loci: readonly string[]): SharesOf => {
  const among = lociWith(pair.loci);
  const named = loci.map((id) => findLocus(id, among));
  const found = unlessTooMany(() => possibleShares(pair, named));
  return (one) => (found === null ? [] : (unlessTooMany(() => found(one)) ?? []));
};

/** Null where a pair may be more things than can be gone through. */
const unlessTooMany = <T>(work: () => T): T | null => {
  try {
    return work();
  } catch (error) {
    if (error instanceof HeredityError && error.code === 'TOO_LARGE') return null;
    throw error;
  }
};

/** Shares of all classes of one cross together: more than anyone reads, and each costs time. */
const MOST_SHARES = 10_000;

/** By class; none at all where there are too many, for some alone would be taken for a statement about the others. */
const sharesOfAll = (
  classes: readonly PhenotypeClass[],
  shares: SharesOf,
): readonly (readonly PossibleShare[])[] => {
  const told: (readonly PossibleShare[])[] = [];
  let sum = 0;
  for (const one of classes) {
    const possible = shares(one);
    sum += possible.length;
    if (sum > MOST_SHARES) return [];
    told.push(possible);
  }
  return told;
};

interface PairParents {
  readonly sire: GenotypeSet;
  readonly dam: GenotypeSet;
  readonly loci: readonly Locus[];
}

const isCertain = ({ sire, dam }: PairParents, loci: readonly string[]): boolean =>
  [sire, dam].every((set) =>
    loci.every((id) => {
      const input = set[id];
      return typeof input === 'string' || typeof input?.[0] === 'string';
    }),
  );

export const toClasses = (
  expectation: CrossExpectation,
  broodSize: number | null,
  parents: PairParents,
): CrossClassModel[] => {
  const shares = isCertain(parents, expectation.loci)
    ? certain
    : sharesOf(parents, expectation.loci);
  const told = sharesOfAll(expectation.classes, shares);
  return expectation.classes.map((c, i) => {
    const probability = fractionToNumber(c.probability);
    const possible = told[i] ?? [];
    return {
      phenotype: c.label,
      parts: c.parts.map(({ loci, name, phenotype }) => ({
        locusIds: [...loci],
        phenotype: name,
        hidden: phenotype === HIDDEN,
      })),
      fraction: formatFraction(c.probability),
      probability,
      expectedCount: broodSize === null ? null : broodSize * probability,
      fryForOne95: fryForOne(possible),
      shares: possible.map((one) => ({
        weight: one.weight,
        fraction: formatFraction(one.probability),
      })),
      genotypes: [],
    };
  });
};

export const toCrossExpectation = (
  pair: PairExpectation,
  broodSize: number | null,
  parents: PairParents,
  assumed: string[] = [],
): CrossExpectationModel => ({
  assumed: [
    ...assumed,
    ...(pair.expectation?.notes.filter((one) => one.includes('not hidden')) ?? []),
  ],
  locusIds: [...pair.computed],
  classes: pair.expectation === null ? [] : toClasses(pair.expectation, broodSize, parents),
  notComputed: pair.notComputed.map((n) => ({
    locusId: n.locus,
    name: n.name,
    // The name stands before it.
    reason: n.text.startsWith(`${n.name}: `) ? n.text.slice(n.name.length + 2) : n.text,
  })),
  lostFraction:
    pair.expectation === null || fractionToNumber(pair.expectation.loss) === 0
      ? null
      : formatFraction(pair.expectation.loss),
});

const verdicts: Record<FitResult['verdict'], string> = {
  agrees:
    'The counts agree with the expectation. That does not prove it: other expectations may agree too.',
  doubtful:
    'The counts fit the expectation poorly: a brood this far off comes up less than 1 time in 20.',
  poor: 'The counts do not fit: a brood this far off comes up less than 1 time in 100. Look again at the genotypes and the scoring.',
  impossible:
    'A class was counted that the expectation gives no chance at all: a genotype, a parent or the scoring is wrong.',
};

export const toFitResult = (fit: FitResult): FitResultModel => ({
  method: fit.method,
  statistic: fit.chiSquare?.statistic ?? null,
  degreesOfFreedom: fit.chiSquare?.df ?? null,
  pValue: fit.pValue,
  standardError: fit.standardError,
  pooled: fit.pooled.map((p) => `${p.label}: ${p.from.join(' + ')}`),
  cells: fit.cells.map((c) => ({
    name: c.label,
    observed: c.observed,
    expected: c.expected,
    contribution: c.contribution,
  })),
  verdict: verdicts[fit.verdict],
  total: fit.total,
});
