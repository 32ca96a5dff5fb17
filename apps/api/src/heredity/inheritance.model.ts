import { Field, Float, ID, InputType, Int, ObjectType, registerEnumType } from '@nestjs/graphql';

export enum LinkedParent {
  SIRE = 'SIRE',
  DAM = 'DAM',
  BOTH = 'BOTH',
}
registerEnumType(LinkedParent, {
  name: 'LinkedParent',
  description: 'Which parent carries both alleles hidden.',
  valuesMap: {
    SIRE: { description: 'The sire; the dam shows both looks herself.' },
    DAM: { description: 'The dam; the sire shows both looks himself.' },
    BOTH: { description: 'Both parents.' },
  },
});

export enum LinkedPhase {
  TOGETHER = 'TOGETHER',
  APART = 'APART',
  UNKNOWN = 'UNKNOWN',
}
registerEnumType(LinkedPhase, {
  name: 'LinkedPhase',
  description: 'How both alleles came to the parent that carries them.',
  valuesMap: {
    TOGETHER: { description: 'Both from one of its own parents (coupling).' },
    APART: { description: 'One from each of its own parents (repulsion).' },
    UNKNOWN: { description: 'Not known.' },
  },
});

export enum LinkageVerdict {
  TOGETHER = 'TOGETHER',
  CANNOT_TELL = 'CANNOT_TELL',
  APART = 'APART',
}
registerEnumType(LinkageVerdict, {
  name: 'LinkageVerdict',
  description: 'What broods say of two looks.',
  valuesMap: {
    TOGETHER: { description: 'Inherited together: the LOD is 3 or more.' },
    CANNOT_TELL: { description: 'Cannot tell yet.' },
    APART: {
      description: 'Not closer than 30 in 100: the LOD is -2 or less at every smaller share.',
    },
  },
});

export enum InheritanceVerdict {
  NOT_INHERITED = 'NOT_INHERITED',
  ONE_LOCUS = 'ONE_LOCUS',
  TWO_LOCI = 'TWO_LOCI',
  MANY_LOCI = 'MANY_LOCI',
  CANNOT_TELL = 'CANNOT_TELL',
}
registerEnumType(InheritanceVerdict, {
  name: 'InheritanceVerdict',
  description: 'Which kind of inheritance has 95 % of the weight.',
  valuesMap: {
    NOT_INHERITED: { description: 'Not inherited.' },
    ONE_LOCUS: { description: 'One locus.' },
    TWO_LOCI: { description: 'Two loci.' },
    MANY_LOCI: { description: 'Many loci.' },
    CANNOT_TELL: { description: 'Cannot tell yet.' },
  },
});

@InputType({ description: 'Young of one pair, counted by two recessive looks.' })
export class LinkageBroodInput {
  @Field(() => LinkedParent, { description: 'Which parent carries both.' })
  carrier: LinkedParent;

  @Field(() => LinkedPhase, { description: 'How both came to it.' })
  phase: LinkedPhase;

  @Field(() => Int, { description: 'Young that show both looks.' })
  both: number;

  @Field(() => Int, { description: 'Young that show the first only.' })
  firstOnly: number;

  @Field(() => Int, { description: 'Young that show the second only.' })
  secondOnly: number;

  @Field(() => Int, { description: 'Young that show neither.' })
  neither: number;
}

@InputType({ description: 'A look at a locus.' })
export class LookInput {
  @Field(() => ID, { description: 'The locus.' })
  locusId: string;

  @Field(() => String, { description: 'The look, by id or name.' })
  phenotype: string;
}

@ObjectType('LinkageBrood', { description: 'A brood on record that bears on two recessive looks.' })
export class LinkageBroodModel {
  @Field(() => ID, { description: 'The spawn.' })
  spawnId: string;

  @Field(() => String, { description: 'Its tag.' })
  spawnTag: string;

  @Field(() => LinkedParent, { description: 'Which parent carries both.' })
  carrier: LinkedParent;

  @Field(() => LinkedPhase, { description: 'How both came to it, as far as its parents show.' })
  phase: LinkedPhase;

  @Field(() => Int, { description: 'Young that show both looks.' })
  both: number;

  @Field(() => Int, { description: 'Young that show the first only.' })
  firstOnly: number;

  @Field(() => Int, { description: 'Young that show the second only.' })
  secondOnly: number;

  @Field(() => Int, { description: 'Young that show neither.' })
  neither: number;
}

@ObjectType('Recombination', {
  description: 'How often two loci part from one generation to the next.',
})
export class RecombinationModel {
  @Field(() => Float, { description: 'Most likely share of recombinants, 0 to 0.5.' })
  recombination: number;

  @Field(() => Float, {
    nullable: true,
    description: 'Its standard error; null at the ends of its range.',
  })
  standardError: number | null;

  @Field(() => Float, { description: 'LOD there: 3 is the customary line for linkage.' })
  lod: number;

  @Field(() => Float, { description: 'Lower end of the support interval of one LOD unit.' })
  low: number;

  @Field(() => Float, { description: 'Upper end.' })
  high: number;
}

@ObjectType('LinkageAnswer', { description: 'Whether two looks are inherited together.' })
export class LinkageAnswerModel extends RecombinationModel {
  @Field(() => LinkageVerdict, { description: 'What that says.' })
  verdict: LinkageVerdict;

  @Field(() => Float, {
    description: 'The loci are not closer than this: the LOD is -2 or less at every smaller share.',
  })
  notCloserThan: number;

  @Field(() => Int, { description: 'Young counted.' })
  young: number;

  @Field(() => RecombinationModel, {
    nullable: true,
    description: 'In sires alone; null when no brood tells.',
  })
  inSires: RecombinationModel | null;

  @Field(() => RecombinationModel, {
    nullable: true,
    description: 'In dams alone; null when no brood tells.',
  })
  inDams: RecombinationModel | null;
}

@ObjectType('InheritanceWay', { description: 'A way of inheritance, weighed.' })
export class InheritanceWayModel {
  @Field(() => String, { description: 'Code.' })
  code: string;

  @Field(() => String, { description: 'In plain words.' })
  meaning: string;

  @Field(() => Float, { description: 'Share of belief among these ways, 0 to 1.' })
  weight: number;

  @Field(() => Float, {
    description:
      'Allele frequency among founders, share of fish, or heritability of the liability.',
  })
  estimate: number;
}

@ObjectType('HowInherited', {
  description: 'One locus, two, or many: a look weighed over the whole pedigree.',
})
export class HowInheritedModel {
  @Field(() => ID, { description: 'The locus whose looks were counted.' })
  locusId: string;

  @Field(() => String, { description: 'The look.' })
  phenotype: string;

  @Field(() => Int, { description: 'Fish looked at.' })
  looked: number;

  @Field(() => Int, { description: 'Fish that show it.' })
  shown: number;

  @Field(() => Int, { description: 'Fish not counted because their looks contradict each other.' })
  contradicting: number;

  @Field(() => Int, {
    description: 'Ways not weighed because the pedigree is too tangled for them.',
  })
  leftOut: number;

  @Field(() => InheritanceVerdict, { description: 'What that says.' })
  verdict: InheritanceVerdict;

  @Field(() => [InheritanceWayModel], { description: 'The likeliest first.' })
  ways: InheritanceWayModel[];
}
