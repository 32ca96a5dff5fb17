import { Field, Float, ID, Int, ObjectType } from '@nestjs/graphql';
import { connectionOf } from '../graphql/connection.js';
import { ComputationModel } from '../jobs/computation.model.js';
import { FishModel } from '../shapes/fish.model.js';
import type { FishInUse } from '../stock/fish-in-use.js';

@ObjectType('LikelyCarrier', { description: 'A fish in use, and its chance to carry an allele.' })
export class LikelyCarrierModel {
  @Field(() => FishModel, { description: 'The fish.' })
  fish: FishModel;

  @Field(() => Float, { description: 'Chance of at least one copy, 0 to 1.' })
  probability: number;

  @Field(() => Float, { description: 'Chance of two copies, 0 to 1.' })
  twice: number;

  @Field(() => Float, {
    nullable: true,
    description:
      'Chance that it is the only fish in use of its line that carries it; null: it has no line, the line has very many fish, or the pedigree had to be sampled.',
  })
  only: number | null;
}

@ObjectType('LikelyCarrierConnection', {
  description: 'One page of fish by their chance to carry an allele, the surest first.',
})
export class LikelyCarrierConnectionModel extends connectionOf(
  LikelyCarrierModel,
  'LikelyCarrier',
  'fish that may carry it',
) {}

@ObjectType('AlleleOfLocus', { description: 'An allele of a locus.' })
export class AlleleOfLocusModel {
  @Field(() => ID, { description: 'Its id.' })
  id: string;

  @Field(() => String, { description: 'Its symbol.' })
  symbol: string;

  @Field(() => String, { description: 'What it does.' })
  name: string;
}

@ObjectType('WhoCarries', { description: 'Which fish in use carry an allele, as far as is known.' })
export class WhoCarriesModel {
  @Field(() => ID, { description: 'The locus.' })
  locusId: string;

  @Field(() => String, { description: 'Its name.' })
  locusName: string;

  @Field(() => [AlleleOfLocusModel], { description: 'All alleles of the locus.' })
  alleles: AlleleOfLocusModel[];

  @Field(() => ID, { description: 'The allele looked for.' })
  alleleId: string;

  @Field(() => Int, { description: 'Fish in use that were looked at.' })
  inUse: number;

  @Field(() => Int, { description: 'Of these, fish that carry it with a chance of 95 % or more.' })
  sure: number;

  @Field(() => Int, { description: 'Fish that may carry it, with whatever chance.' })
  possible: number;

  @Field(() => Int, { description: 'Fish that may carry it with a chance below `least`.' })
  unlikely: number;

  @Field(() => Int, {
    description: 'Fish in use of which no record of them or their kin says anything; not listed.',
  })
  notKnown: number;

  @Field(() => Int, { description: 'Records of the locus in the whole stock.' })
  recordCount: number;

  @Field(() => String, {
    nullable: true,
    description: 'What was assumed of the alleles of founders; null: nothing is recorded here.',
  })
  founders: string | null;

  @Field(() => [String], { description: 'What was assumed.' })
  assumed: string[];

  @Field(() => String, { nullable: true, description: 'How it was worked out: exact or sampled.' })
  method: string | null;

  @Field(() => String, {
    nullable: true,
    description: 'Why nothing could be worked out: no records, or records that cannot all be true.',
  })
  whyNone: string | null;

  @Field(() => ComputationModel, {
    nullable: true,
    description: 'The long computation whose answer is waited for.',
  })
  waiting: ComputationModel | null;

  /** Not told as they are: the rows that pages are made of, and all fish in use that were looked at. */
  carriers: readonly ChanceOfCarrier[];
  fish: readonly FishInUse[];
}

/** A row without the fish itself. */
export interface ChanceOfCarrier extends FishInUse {
  readonly probability: number;
  readonly twice: number;
}
