import { Field, ID, Int, ObjectType } from '@nestjs/graphql';
import { DateScalar } from '../graphql/date.scalar.js';
import { connectionOf } from '../graphql/connection.js';
import { LossKind, SpawnEventKind, SpawnStage } from '../graphql/enums.js';
import { RecordModel } from './record.model.js';

@ObjectType('Spawn', {
  description:
    "One pair's mating: dated events, counts at stages, losses and culls as counts with reasons.",
})
export class SpawnModel extends RecordModel {
  @Field(() => String, { description: 'What is written on the container.' })
  tag: string;

  @Field(() => DateScalar, { nullable: true, description: 'Day of spawning.' })
  spawnedOn: string | null;

  @Field(() => DateScalar, { nullable: true, description: 'Day of hatching.' })
  hatchDate: string | null;

  @Field(() => String, { nullable: true, description: 'What the mating was for.' })
  purpose: string | null;

  @Field(() => String, { nullable: true, description: 'Anything else.' })
  note: string | null;

  @Field(() => Boolean, { description: 'True when no young were raised.' })
  failed: boolean;

  @Field(() => Boolean, {
    description:
      'True when its young are of several broods, such as a bag from a shop: then they are sibs only by the parents on record. Otherwise they are full sibs, also with unknown parents.',
  })
  mixedOrigin: boolean;

  @Field(() => String, { nullable: true, description: 'Why it failed.' })
  failedReason: string | null;

  personId: string;
  lineId: string | null;
  sireId: string | null;
  damId: string | null;
  pairingId: string | null;
}

@ObjectType('SpawnEvent', { description: 'Something that happened in a spawn.' })
export class SpawnEventModel {
  @Field(() => ID, { description: 'UUID.' })
  id: string;

  @Field(() => SpawnEventKind, { description: 'What.' })
  kind: SpawnEventKind;

  @Field(() => Date, { description: 'When.' })
  at: Date;

  @Field(() => String, { nullable: true, description: 'Anything else.' })
  note: string | null;

  spawnId: string;
}

@ObjectType('SpawnCount', { description: 'Young counted at a stage.' })
export class SpawnCountModel {
  @Field(() => ID, { description: 'UUID.' })
  id: string;

  @Field(() => SpawnStage, { description: 'Stage.' })
  stage: SpawnStage;

  @Field(() => DateScalar, { description: 'Day of the count.' })
  countedOn: string;

  @Field(() => Int, { description: 'How many.' })
  number: number;

  @Field(() => String, { nullable: true, description: 'Anything else.' })
  note: string | null;

  spawnId: string;
}

@ObjectType('SpawnLoss', { description: 'Young that left the brood, as a count with a reason.' })
export class SpawnLossModel {
  @Field(() => ID, { description: 'UUID.' })
  id: string;

  @Field(() => LossKind, { description: 'Died, culled or placed.' })
  kind: LossKind;

  @Field(() => DateScalar, { description: 'Day.' })
  on: string;

  @Field(() => Int, { description: 'How many.' })
  number: number;

  @Field(() => String, { description: 'Why.' })
  reason: string;

  @Field(() => Boolean, {
    description: 'True when the fault is thought heritable.',
  })
  heritable: boolean;

  @Field(() => String, { nullable: true, description: 'Locus the fault speaks of.' })
  locusId: string | null;

  @Field(() => String, { nullable: true, description: 'What was seen at that locus.' })
  phenotype: string | null;

  @Field(() => String, { nullable: true, description: 'Anything else.' })
  note: string | null;

  spawnId: string;
}

@ObjectType('ClassCount', { description: 'Young of one phenotype class counted in a brood.' })
export class ClassCountModel {
  @Field(() => ID, { description: 'UUID.' })
  id: string;

  @Field(() => [String], { description: 'Loci the classes are of.' })
  locusIds: string[];

  @Field(() => String, { description: 'The class.' })
  phenotype: string;

  @Field(() => Int, { description: 'How many.' })
  number: number;

  @Field(() => DateScalar, { description: 'Day of the count.' })
  countedOn: string;

  @Field(() => Int, { nullable: true, description: 'Age of the brood then, in days.' })
  ageDays: number | null;

  @Field(() => String, { nullable: true, description: 'Anything else.' })
  note: string | null;

  spawnId: string;
}

@ObjectType('SpawnConnection', { description: 'One page of a list of spawns.' })
export class SpawnConnectionModel extends connectionOf(SpawnModel, 'Spawn', 'spawns') {}
