import { Field, Float, Int, ObjectType } from '@nestjs/graphql';
import { FounderSourceModel } from './founder-source.model.js';
import { NamedFishModel } from '../shapes/named-fish.model.js';

@ObjectType('FounderInbreeding', {
  description: 'The part of an F that is a founder’s genes doubled.',
})
export class FounderInbreedingModel extends FounderSourceModel {
  @Field(() => Float, {
    description: 'Chance that both genes of the fish are copies of one gene of this founder.',
  })
  contribution: number;
}

@ObjectType('InbreedingOrigin', { description: 'An ancestor in which a part of an F arose.' })
export class InbreedingOriginModel {
  @Field(() => NamedFishModel, { description: 'The ancestor.' })
  ancestor: NamedFishModel;

  @Field(() => Float, {
    description: 'Chance that both genes are copies of one gene of it, and of none younger.',
  })
  contribution: number;

  @Field(() => Float, { description: 'Mean generations back over both lines.' })
  meanGenerations: number;
}

@ObjectType('InbreedingSources', {
  description: 'Where an F comes from: from which founders, in which ancestors, how long ago.',
})
export class InbreedingSourcesModel {
  @Field(() => Float, { description: 'F.' })
  coefficient: number;

  @Field(() => [FounderInbreedingModel], {
    nullable: true,
    description:
      'By founder, largest first; they add up to F. Null when the fish has more than 3,000 ancestors.',
  })
  byFounder: FounderInbreedingModel[] | null;

  @Field(() => [InbreedingOriginModel], {
    description: 'By the fish in which the two genes were last one, largest first, at most 50.',
  })
  byOrigin: InbreedingOriginModel[];

  @Field(() => Int, { description: 'In how many ancestors a part of F arose, listed or not.' })
  originCount: number;

  @Field(() => Float, {
    nullable: true,
    description: 'Mean generations back over all origins; null with F = 0.',
  })
  meanGenerations: number | null;

  @Field(() => Boolean, {
    description: 'False when there were too many ancestors to follow all lines up.',
  })
  complete: boolean;

  @Field(() => [Float], {
    description:
      'F as it would be if the records went back 1, 2, 3 and so on generations, at most 12; it rises to F.',
  })
  byGenerations: number[];

  @Field(() => Float, {
    description:
      'Ancestral inbreeding (Ballou 1997): chance that a gene of it was one of two alike in an ancestor.',
  })
  ancestralInbreeding: number;
}
