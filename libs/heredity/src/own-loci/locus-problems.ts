import { compareFractions, formatFraction, ONE, sumFractions, toProbability } from '../fraction.js';
import { allGenotypes, genotypeFits } from '../genotype.js';
import { HeredityError } from '../heredity-error.js';
import { MOST } from '../limits.js';
import type { ExpressionRule, Locus } from '../locus.js';

export type LocusProblemCode =
  | 'ID_INVALID'
  | 'NAME_EMPTY'
  | 'ALLELES_TOO_FEW'
  | 'TOO_MANY'
  | 'ALLELE_REPEATED'
  | 'SYMBOL_INVALID'
  | 'PHENOTYPE_REPEATED'
  | 'RULE_INVALID'
  | 'RULE_UNKNOWN_PHENOTYPE'
  | 'RULE_PROBABILITIES'
  | 'RULE_NEVER_REACHED'
  | 'GENOTYPE_WITHOUT_RULE'
  | 'VIABILITY_INVALID'
  | 'NOTATION_INVALID';

export interface LocusProblem {
  readonly code: LocusProblemCode;
  readonly message: string;
}

const problem = (code: LocusProblemCode, message: string): LocusProblem => ({ code, message });

function repeated(values: readonly string[]): string[] {
  return [...new Set(values.filter((value, i) => values.indexOf(value) !== i))];
}

/** Before anything else is looked at: the work grows with the product of these. */
function sizeProblems(locus: Locus): LocusProblem[] {
  const over = (count: number, most: number, what: string): LocusProblem[] =>
    count <= most
      ? []
      : [
          problem(
            'TOO_MANY',
            `${count.toLocaleString('en')} ${what}: a locus has at most ${String(most)}. Put those that cannot be told apart together.`,
          ),
        ];
  return [
    ...over(locus.alleles.length, MOST.alleles, 'alleles'),
    ...over(locus.phenotypes.length, MOST.phenotypes, 'phenotypes'),
    ...over(locus.expression.length, MOST.rules, 'rules'),
    ...over(locus.viability.length, MOST.rules, 'rules of survival'),
    ...over(locus.hiddenBy.length, MOST.loci, 'loci that hide it'),
    ...over(
      Math.max(0, ...locus.expression.map((rule) => rule.shows.length)),
      MOST.phenotypes,
      'looks in one rule',
    ),
  ];
}

function nameProblems(locus: Locus): LocusProblem[] {
  const found: LocusProblem[] = [];
  if (!/^[A-Za-z][A-Za-z0-9-]*$/.test(locus.id)) {
    found.push(
      problem(
        'ID_INVALID',
        `"${locus.id}" cannot name a locus: begin with a letter, then letters, digits or dashes.`,
      ),
    );
  }
  if (locus.name.trim() === '') found.push(problem('NAME_EMPTY', 'Give the locus a name.'));
  if (locus.alleles.length < 2) {
    found.push(
      problem(
        'ALLELES_TOO_FEW',
        `A locus that is computed needs two alleles or more; ${String(locus.alleles.length)} given.`,
      ),
    );
  }
  const ids = locus.alleles.map((one) => one.id);
  const symbols = locus.alleles.map((one) => one.symbol);
  // Id and symbol are often one and the same: what is wrong with both is said once.
  for (const value of new Set([...repeated(ids), ...repeated(symbols)])) {
    found.push(problem('ALLELE_REPEATED', `The allele "${value}" is given twice.`));
  }
  for (const symbol of symbols) {
    if (!/^[^\s/,-]+$/.test(symbol)) {
      found.push(
        problem(
          'SYMBOL_INVALID',
          `"${symbol}" cannot be an allele's symbol: no spaces, slashes, commas or dashes.`,
        ),
      );
    }
  }
  for (const value of repeated(locus.phenotypes.map((one) => one.id))) {
    found.push(problem('PHENOTYPE_REPEATED', `The phenotype "${value}" is given twice.`));
  }
  return found;
}

function shownProblems(locus: Locus, rule: ExpressionRule): LocusProblem[] {
  const found: LocusProblem[] = [];
  for (const { phenotype } of rule.shows) {
    if (!locus.phenotypes.some((one) => one.id === phenotype)) {
      found.push(
        problem(
          'RULE_UNKNOWN_PHENOTYPE',
          `The rule for ${rule.genotype} names "${phenotype}", which is not among the phenotypes.`,
        ),
      );
    }
  }
  try {
    const sum = sumFractions(rule.shows.map((one) => toProbability(one.probability)));
    if (compareFractions(sum, ONE) !== 0) {
      found.push(
        problem(
          'RULE_PROBABILITIES',
          `The phenotypes of ${rule.genotype} have probabilities that sum to ${formatFraction(sum)}, not 1.`,
        ),
      );
    }
  } catch (error) {
    found.push(problem('RULE_PROBABILITIES', messageOf(error)));
  }
  return found;
}

const messageOf = (error: unknown) =>
  error instanceof HeredityError ? error.message : String(error);

function expressionProblems(locus: Locus): LocusProblem[] {
  const found: LocusProblem[] = [];
  let open = allGenotypes(locus);
  for (const rule of locus.expression) {
    try {
      const left = open.filter((genotype) => !genotypeFits(locus, genotype, rule.genotype));
      if (left.length === open.length) {
        found.push(
          problem(
            'RULE_NEVER_REACHED',
            `The rule for ${rule.genotype} is never used: earlier rules cover it.`,
          ),
        );
      }
      open = left;
    } catch (error) {
      found.push(problem('RULE_INVALID', messageOf(error)));
    }
    found.push(...shownProblems(locus, rule));
  }
  const symbol = (id: string) => locus.alleles.find((one) => one.id === id)?.symbol ?? id;
  for (const genotype of open) {
    found.push(
      problem(
        'GENOTYPE_WITHOUT_RULE',
        `Nothing says what ${genotype.map(symbol).join('/')} looks like.`,
      ),
    );
  }
  return found;
}

function viabilityProblems(locus: Locus): LocusProblem[] {
  const found = locus.viability.flatMap((effect) => {
    try {
      toProbability(effect.survival, 'survival');
      allGenotypes(locus).some((genotype) => genotypeFits(locus, genotype, effect.genotype));
      return [];
    } catch (error) {
      return [problem('VIABILITY_INVALID', messageOf(error))];
    }
  });
  if (found.length > 0) return found;
  const lives = allGenotypes(locus).some((genotype) => {
    const effect = locus.viability.find((one) => genotypeFits(locus, genotype, one.genotype));
    return effect === undefined || toProbability(effect.survival, 'survival').numerator > 0n;
  });
  return lives
    ? []
    : [problem('VIABILITY_INVALID', 'No genotype lives: at least one must survive now and then.')];
}

/** Everything wrong with a locus as data, at once; empty when it can be computed with. */
export function findLocusProblems(locus: Locus): LocusProblem[] {
  const sizes = sizeProblems(locus);
  if (sizes.length > 0) return sizes;
  const names = nameProblems(locus);
  const ids = new Set(locus.alleles.map((one) => one.id));
  const notations = locus.notations.flatMap((one) =>
    Object.values(one.symbols).every((id) => ids.has(id))
      ? []
      : [
          problem(
            'NOTATION_INVALID',
            `The notation "${one.name}" maps to an allele that is not there.`,
          ),
        ],
  );
  // Rules can only be read against alleles that are in order.
  if (names.length > 0) return [...names, ...notations];
  return [...notations, ...expressionProblems(locus), ...viabilityProblems(locus)];
}
