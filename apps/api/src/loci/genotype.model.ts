import { Field, ID, InputType, Int, ObjectType } from '@nestjs/graphql';
import { GenotypeBasis } from '../graphql/enums.js';
import { WithdrawalModel } from '../shapes/history.model.js';

@ObjectType('Genotype', {
  description: 'What a fish is believed to carry at a locus, and what makes it believed.',
})
export class GenotypeModel {
  @Field(() => ID, { description: 'UUID.' })
  id: string;

  @Field(() => String, { description: 'Locus of the catalogue.' })
  locusId: string;

  @Field(() => String, {
    description: 'Two alleles by symbol, such as `Bl/bl`; a dash where one is not known.',
  })
  genotype: string;

  @Field(() => GenotypeBasis, { description: 'What makes it believed.' })
  basis: GenotypeBasis;

  @Field(() => String, { nullable: true, description: 'Anything else.' })
  note: string | null;

  @Field(() => Int, { description: 'Raised by one at each change.' })
  revision: number;

  @Field(() => WithdrawalModel, {
    nullable: true,
    description: 'Set when the record was withdrawn.',
  })
  withdrawn: WithdrawalModel | null;

  fishId: string;
}

@InputType({
  description:
    'Records a genotype; an earlier one at the locus is replaced and stays in the history.',
})
export class RecordGenotypeInput {
  @Field(() => ID, {
    nullable: true,
    description: 'UUID made by the sender; one is made when absent.',
  })
  id?: string | null;

  @Field(() => ID, { description: 'The fish.' })
  fishId: string;

  @Field(() => String, { description: 'Locus of the catalogue.' })
  locusId: string;

  @Field(() => String, { description: 'Two alleles by symbol.' })
  genotype: string;

  @Field(() => String, {
    nullable: true,
    description: 'Id of the notation it is written in; our symbols when absent.',
  })
  notation?: string | null;

  @Field(() => GenotypeBasis, { description: 'What makes it believed.' })
  basis: GenotypeBasis;

  @Field(() => String, { nullable: true, description: 'Anything else.' })
  note?: string | null;

  @Field(() => Int, { nullable: true, description: 'Revision of the genotype it replaces.' })
  revision?: number | null;
}
