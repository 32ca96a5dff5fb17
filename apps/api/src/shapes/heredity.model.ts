import { Field, Float, ID, InputType, Int, ObjectType } from '@nestjs/graphql';

@ObjectType('Allele', { description: 'An allele, named by meaning.' })
export class AlleleModel {
  @Field(() => String, { description: 'Id by meaning.' })
  id: string;

  @Field(() => String, { description: 'Symbol used here.' })
  symbol: string;

  @Field(() => String, { description: 'What it does.' })
  name: string;
}

@ObjectType('GenotypePhenotype', { description: 'What a genotype looks like.' })
export class GenotypePhenotypeModel {
  @Field(() => String, { description: 'Two alleles by symbol.' })
  genotype: string;

  @Field(() => String, { description: 'Its look.' })
  phenotype: string;
}

@ObjectType('LocusPhenotype', { description: 'Something that can be seen at a locus.' })
export class LocusPhenotypeModel {
  @Field(() => String, { description: 'Id by meaning.' })
  id: string;

  @Field(() => String, { description: 'Name.' })
  name: string;
}

@ObjectType('Notation', { description: 'Another published way of writing the alleles of a locus.' })
export class NotationModel {
  @Field(() => String, { description: 'Id.' })
  id: string;

  @Field(() => String, { description: 'Whose.' })
  name: string;

  @Field(() => String, { description: 'Its symbols and what they mean here.' })
  symbols: string;
}

@ObjectType('Locus', {
  description:
    'A locus of the catalogue, with what is established, practice or disputed, or one of your own.',
})
export class LocusModel {
  @Field(() => Boolean, { description: 'True for a locus that you defined.' })
  own: boolean;

  @Field(() => Int, { description: 'Version of its definition.' })
  version: number;

  @Field(() => Boolean, { description: 'True when it was withdrawn: using it is then an error.' })
  isWithdrawn: boolean;

  @Field(() => ID, { nullable: true, description: 'UUID of the record of your own locus.' })
  recordId: string | null;

  @Field(() => Int, { nullable: true, description: 'Revision of that record.' })
  revision: number | null;

  @Field(() => [LocusPhenotypeModel], { description: 'What can be seen at it.' })
  visible: LocusPhenotypeModel[];

  @Field(() => [NotationModel], { description: 'Other ways of writing it that are read too.' })
  notations: NotationModel[];

  @Field(() => String, { description: 'Id.' })
  id: string;

  @Field(() => String, { description: 'Name.' })
  name: string;

  @Field(() => [AlleleModel], { description: 'Its alleles.' })
  alleles: AlleleModel[];

  @Field(() => String, { description: 'Dominance.' })
  dominance: string;

  @Field(() => [GenotypePhenotypeModel], { description: 'Looks by genotype.' })
  phenotypes: GenotypePhenotypeModel[];

  @Field(() => Boolean, { description: 'True when expectations may be computed.' })
  computable: boolean;

  @Field(() => String, { nullable: true, description: 'Why not.' })
  whyNotComputable: string | null;

  @Field(() => String, { description: 'How well it is known.' })
  confidence: string;

  @Field(() => String, { nullable: true, description: 'What that rests on.' })
  confidenceNote: string | null;

  @Field(() => String, { nullable: true, description: 'How other loci hide or change it.' })
  epistasis: string | null;

  @Field(() => String, { nullable: true, description: 'What can go wrong.' })
  risks: string | null;

  @Field(() => Int, { nullable: true, description: 'Age at which it can be seen, in days.' })
  scorableFromDays: number | null;

  @Field(() => [String], { description: 'Sources.' })
  sources: string[];

  @Field(() => [String], { description: 'Symbols used elsewhere.' })
  alternativeSymbols: string[];

  @Field(() => String, { nullable: true, description: 'Anything else.' })
  note: string | null;
}

@ObjectType('GenotypeFraction', { description: 'A genotype and its exact share.' })
export class GenotypeFractionModel {
  @Field(() => String, { description: 'Genotype.' })
  genotype: string;

  @Field(() => String, { description: 'Exact share, such as 1/4.' })
  fraction: string;
}

@ObjectType('CrossClassPart', {
  description: 'What a class shows at one locus, or at loci that make one look together.',
})
export class CrossClassPartModel {
  @Field(() => [String], { description: 'The locus, or the loci.' })
  locusIds: string[];

  @Field(() => String, { description: 'The look.' })
  phenotype: string;

  @Field(() => Boolean, {
    description:
      'True where another locus hides what there would be to see: such young cannot be counted by look.',
  })
  hidden: boolean;
}

@ObjectType('PossibleShare', {
  description: 'A share that a class may be of the living young, and how likely that is.',
})
export class PossibleShareModel {
  @Field(() => Float, { description: 'Weight among all that the pair may be.' })
  weight: number;

  @Field(() => String, { description: 'Exact share, such as 3/16.' })
  fraction: string;
}

@InputType({ description: 'A share that a class may be, and how likely that is.' })
export class PossibleShareInput {
  @Field(() => Float, { description: 'Weight among all that the pair may be; they sum to 1.' })
  weight: number;

  @Field(() => String, { description: 'Share, such as 3/16.' })
  fraction: string;
}

@ObjectType('CrossClass', { description: 'A phenotype class of a brood.' })
export class CrossClassModel {
  @Field(() => String, { description: 'The class.' })
  phenotype: string;

  @Field(() => [CrossClassPartModel], {
    description: 'The class taken apart by locus, in the order in which it is named.',
  })
  parts: CrossClassPartModel[];

  @Field(() => String, { description: 'Exact share, such as 3/16.' })
  fraction: string;

  @Field(() => Float, { description: 'The same as a number.' })
  probability: number;

  @Field(() => Float, { nullable: true, description: 'Expected number in the brood asked about.' })
  expectedCount: number | null;

  @Field(() => Int, {
    nullable: true,
    description:
      'Fry to raise to see at least one with 95 in 100 certainty; null when no number reaches it.',
  })
  fryForOne95: number | null;

  @Field(() => [PossibleShareModel], {
    description:
      'The shares it may be, pair by pair that uncertain parents may be; one when certain, none when too many to go through.',
  })
  shares: PossibleShareModel[];

  @Field(() => [GenotypeFractionModel], { description: 'Genotypes behind it, where listed.' })
  genotypes: GenotypeFractionModel[];
}

@ObjectType('NotComputed', { description: 'A locus that was not worked out, and why.' })
export class NotComputedModel {
  @Field(() => String, { description: 'Locus.' })
  locusId: string;

  @Field(() => String, { description: 'Its name.' })
  name: string;

  @Field(() => String, { description: 'Why.' })
  reason: string;
}

@ObjectType('CrossExpectation', { description: 'Expected phenotype classes of a pair, exactly.' })
export class CrossExpectationModel {
  @Field(() => [String], { description: 'Loci computed.' })
  locusIds: string[];

  @Field(() => [CrossClassModel], { description: 'Classes, most frequent first.' })
  classes: CrossClassModel[];

  @Field(() => [NotComputedModel], { description: 'Loci that were not worked out.' })
  notComputed: NotComputedModel[];

  @Field(() => String, { nullable: true, description: 'Share of eggs lost to lethal classes.' })
  lostFraction: string | null;

  @Field(() => [String], {
    description: 'What was assumed where a genotype is known only in part.',
  })
  assumed: string[];
}

@InputType({ description: 'A genotype at a locus.' })
export class LocusGenotypeInput {
  @Field(() => String, { description: 'Locus of the catalogue.' })
  locusId: string;

  @Field(() => String, { description: 'Two alleles by symbol.' })
  genotype: string;
}

@InputType({ description: 'Two parents by genotype.' })
export class CrossInput {
  @Field(() => [LocusGenotypeInput], { description: 'Genotypes of the sire.' })
  sire: LocusGenotypeInput[];

  @Field(() => [LocusGenotypeInput], { description: 'Genotypes of the dam.' })
  dam: LocusGenotypeInput[];

  @Field(() => Int, { nullable: true, description: 'Young to expect counts for.' })
  broodSize?: number | null;
}

@InputType({ description: 'How many fry to raise.' })
export class BroodSizeInput {
  @Field(() => String, { description: 'Share of the class, such as 1/4.' })
  fraction: string;

  @Field(() => [PossibleShareInput], {
    nullable: true,
    description: 'In place of the one share: all it may be, for uncertain parents.',
  })
  shares?: PossibleShareInput[] | null;

  @Field(() => Int, {
    defaultValue: 1,
    description: 'How many of the class to see.',
  })
  atLeast: number;

  @Field(() => Float, { defaultValue: 0.95, description: 'With what certainty.' })
  certainty: number;

  @Field(() => Float, {
    defaultValue: 1,
    description: 'Share that lives to the age of scoring.',
  })
  survival: number;
}

@InputType({ description: 'A class counted and expected.' })
export class ObservedClassInput {
  @Field(() => String, { description: 'The class.' })
  name: string;

  @Field(() => Int, { description: 'Fish counted.' })
  observed: number;

  @Field(() => String, { description: 'Expected share.' })
  fraction: string;
}

@InputType({ description: 'An observed brood against an expectation.' })
export class FitInput {
  @Field(() => [ObservedClassInput], { description: 'All classes of the expectation.' })
  observed: ObservedClassInput[];
}

@ObjectType('FitCell', { description: 'One class of a test of fit.' })
export class FitCellModel {
  @Field(() => String, { description: 'The class.' })
  name: string;

  @Field(() => Int, { description: 'Fish counted.' })
  observed: number;

  @Field(() => Float, { description: 'Fish expected.' })
  expected: number;

  @Field(() => Float, { nullable: true, description: 'What it adds to the statistic.' })
  contribution: number | null;
}

@ObjectType('FitResult', { description: 'A test of fit.' })
export class FitResultModel {
  @Field(() => String, { description: 'exact, chi-square or sampled.' })
  method: string;

  @Field(() => Float, { nullable: true, description: 'The statistic, for chi-square.' })
  statistic: number | null;

  @Field(() => Int, { nullable: true, description: 'Its degrees of freedom.' })
  degreesOfFreedom: number | null;

  @Field(() => Float, { description: 'Chance of a brood at least as unlikely.' })
  pValue: number;

  @Field(() => Float, {
    nullable: true,
    description: 'Standard error of that chance where it was sampled.',
  })
  standardError: number | null;

  @Field(() => [String], { description: 'Cells that were pooled.' })
  pooled: string[];

  @Field(() => [FitCellModel], { description: 'The classes.' })
  cells: FitCellModel[];

  @Field(() => String, { description: 'In plain words.' })
  verdict: string;

  @Field(() => Int, { description: 'Fish counted in all.' })
  total: number;
}
