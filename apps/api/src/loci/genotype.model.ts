import { Field, ID, InputType, Int, ObjectType } from '@nestjs/graphql';
import { SenderId } from '../graphql/sent.js';
import { GenotypeBasis } from '../graphql/enums.js';
import { RecordModel } from '../shapes/record.model.js';

@ObjectType('Genotype', {
  description: 'What a fish is believed to carry at a locus, and what makes it believed.',
})
export class GenotypeModel extends RecordModel {
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

  fishId: string;
}

@InputType({
  description:
    'Records a genotype; an earlier one at the locus is replaced and stays in the history.',
})
export class RecordGenotypeInput {
  @SenderId()
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
