import { Field, Float, ID, InputType, Int } from '@nestjs/graphql';
import { ConfirmedSpawn, SenderId } from '../graphql/sent.js';
import { registerEnumType } from '@nestjs/graphql';
import { DateScalar } from '../graphql/date.scalar.js';

export const PairingSortField = {
  WORTH: 'WORTH',
  INBREEDING: 'INBREEDING',
  SIRE: 'SIRE',
  DAM: 'DAM',
} as const;
export type PairingSortField = (typeof PairingSortField)[keyof typeof PairingSortField];
registerEnumType(PairingSortField, {
  name: 'PairingSortField',
  description: 'What the judged pairs are sorted by.',
  valuesMap: {
    WORTH: {
      description:
        'What the pair is worth for the line; by F while nobody said what the line is for.',
    },
    INBREEDING: { description: 'F of the brood.' },
    SIRE: { description: 'Tag of the male.' },
    DAM: { description: 'Tag of the female.' },
  },
});

export const LinesOfPair = {
  ANY: 'ANY',
  WITHIN_FIRST: 'WITHIN_FIRST',
  WITHIN: 'WITHIN',
} as const;
export type LinesOfPair = (typeof LinesOfPair)[keyof typeof LinesOfPair];
registerEnumType(LinesOfPair, {
  name: 'LinesOfPair',
  description: 'How pairs of one line and crosses between lines stand in the list.',
  valuesMap: {
    ANY: { description: 'All together in the order asked for.' },
    WITHIN_FIRST: { description: 'Pairs of one line first, each group in the order asked for.' },
    WITHIN: { description: 'Pairs of one line only.' },
  },
});

@InputType({ description: 'Which pairs to judge, and how.' })
export class PairingInput {
  @Field(() => [ID], {
    nullable: true,
    description: 'Fish in use of these lines; all lines when absent.',
  })
  lineIds?: string[] | null;

  @Field(() => [ID], { nullable: true, description: 'Only these males.' })
  sireIds?: string[] | null;

  @Field(() => [ID], { nullable: true, description: 'Only these females.' })
  damIds?: string[] | null;

  @Field(() => Float, { nullable: true, description: 'Do not list broods with a larger F.' })
  maximumInbreeding?: number | null;

  @Field(() => [String], {
    nullable: true,
    description: 'Wanted looks as locus:phenotype, such as bl:royal.',
  })
  wantClasses?: string[] | null;

  @Field(() => Boolean, {
    nullable: true,
    defaultValue: true,
    description: 'Keep pairs with a stop warning in the list.',
  })
  includeDiscouraged: boolean;

  @Field(() => LinesOfPair, {
    nullable: true,
    defaultValue: 'ANY',
    description: 'How pairs of one line and crosses between lines stand in the list.',
  })
  linesOfPair?: LinesOfPair | null;

  @Field(() => Boolean, {
    nullable: true,
    defaultValue: false,
    description: 'Fish that swim with partners, or nobody knows where, too.',
  })
  includePartners?: boolean | null;
}

@InputType({ description: 'An allele wanted in a partner.' })
export class LocusAlleleInput {
  @Field(() => String, { description: 'Locus.' })
  locusId: string;

  @Field(() => String, { description: 'Allele by meaning.' })
  alleleId: string;
}

@InputType({ description: 'A trait wanted in a partner.' })
export class TraitMinimumInput {
  @Field(() => ID, { description: 'Trait.' })
  traitId: string;

  @Field(() => Float, { description: 'Smallest value wanted.' })
  minimum: number;
}

@InputType({ description: 'What is wanted from outside.' })
export class OutcrossInput {
  @Field(() => ID, { description: 'The line to refresh.' })
  lineId: string;

  @Field(() => [LocusAlleleInput], {
    nullable: true,
    description: 'Alleles the partner should carry.',
  })
  wantAlleles?: LocusAlleleInput[] | null;

  @Field(() => [TraitMinimumInput], { nullable: true, description: 'Traits it should have.' })
  minimumTraits?: TraitMinimumInput[] | null;

  @Field(() => Boolean, {
    nullable: true,
    defaultValue: false,
    description: 'Fish that swim with partners, or nobody knows where, too.',
  })
  includePartners?: boolean | null;

  @Field(() => Int, {
    nullable: true,
    defaultValue: 20,
    description: 'How many to suggest, at most 100.',
  })
  first: number;
}

@InputType({ description: 'A pairing to plan.' })
export class PlanPairingInput {
  @SenderId()
  id?: string | null;

  @Field(() => ID, { description: 'The male.' })
  sireId: string;

  @Field(() => ID, { description: 'The female.' })
  damId: string;

  @Field(() => Boolean, {
    nullable: true,
    defaultValue: false,
    description:
      'Plans the pair in spite of warnings that ask for confirmation, such as a fish that swims with a partner, is too young, or rests.',
  })
  confirmed?: boolean | null;

  @Field(() => DateScalar, { description: 'Day of the plan.' })
  plannedOn: string;

  @Field(() => String, { nullable: true, description: 'Why this pair.' })
  reason?: string | null;

  @Field(() => String, { nullable: true, description: 'Anything else.' })
  note?: string | null;
}

@InputType({ description: 'The spawn of a planned pairing.' })
export class PairingSpawnInput {
  @Field(() => ID, { description: 'The plan.' })
  pairingId: string;

  @SenderId()
  spawnId?: string | null;

  @Field(() => String, { description: 'What is written on the container.' })
  tag: string;

  @Field(() => ID, { nullable: true, description: 'Line of the young.' })
  lineId?: string | null;

  @Field(() => DateScalar, {
    nullable: true,
    description: 'Day of spawning; absent while the pair is only being set up.',
  })
  spawnedOn?: string | null;

  @Field(() => String, { nullable: true, description: 'Anything else.' })
  note?: string | null;

  @ConfirmedSpawn()
  confirmed?: boolean | null;
}

@InputType({ description: 'Who makes a planned pair.' })
export class AssignPairingInput {
  @Field(() => ID, { description: 'The pair.' })
  pairingId: string;

  @Field(() => ID, {
    nullable: true,
    description:
      'Whoever makes it: of the household, whose line it is, or who may breed with both fish; absent: nobody is named.',
  })
  personId?: string | null;

  @Field(() => Int, {
    nullable: true,
    description: 'Revision the pair was read at; a newer one is an error.',
  })
  revision?: number | null;
}
