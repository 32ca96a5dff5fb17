import { Field, ID, InputType, Int } from '@nestjs/graphql';
import { correctionOf } from '../graphql/correction.js';
import { ConfirmedSpawn, EntryId, IdSentOnce, SenderId } from '../graphql/sent.js';
import { registerEnumType } from '@nestjs/graphql';
import { DateScalar } from '../graphql/date.scalar.js';
import {
  Disposition,
  LossKind,
  Sex,
  SortDirection,
  SpawnEventKind,
  SpawnStage,
} from '../graphql/enums.js';

export const SpawnSortField = { TAG: 'TAG', SPAWNED_ON: 'SPAWNED_ON' } as const;
export type SpawnSortField = (typeof SpawnSortField)[keyof typeof SpawnSortField];
registerEnumType(SpawnSortField, {
  name: 'SpawnSortField',
  description: 'What a list of spawns is sorted by.',
  valuesMap: { TAG: { description: 'Tag.' }, SPAWNED_ON: { description: 'Day of spawning.' } },
});

@InputType({ description: 'Which spawns to list; absent fields do not filter.' })
export class SpawnFilter {
  @Field(() => String, { nullable: true, description: 'Part of the tag, the purpose or the note.' })
  text?: string | null;

  @Field(() => [ID], { nullable: true, description: 'Of these lines.' })
  lineIds?: string[] | null;

  @Field(() => ID, { nullable: true, description: 'By this sire.' })
  sireId?: string | null;

  @Field(() => ID, { nullable: true, description: 'Out of this dam.' })
  damId?: string | null;

  @Field(() => Boolean, { nullable: true, description: 'Only failed ones, or only the others.' })
  failed?: boolean | null;

  @Field(() => Boolean, {
    nullable: true,
    defaultValue: false,
    description: 'Withdrawn records too.',
  })
  includeWithdrawn: boolean;
}

@InputType({ description: 'Order of a list of spawns.' })
export class SpawnSort {
  @Field(() => SpawnSortField, { description: 'What to sort by.' })
  field: SpawnSortField;

  @Field(() => SortDirection, {
    defaultValue: SortDirection.DESC,
    description: 'Which way.',
  })
  direction: SortDirection;
}

@InputType({ description: 'A new spawn.' })
export class CreateSpawnInput {
  @SenderId()
  id?: string | null;

  @Field(() => String, { description: 'What is written on the container.' })
  tag: string;

  @Field(() => ID, { nullable: true, description: 'Line of the young.' })
  lineId?: string | null;

  @Field(() => ID, { nullable: true, description: 'Sire, when known.' })
  sireId?: string | null;

  @Field(() => Boolean, {
    nullable: true,
    description: 'Its young are of several broods and no full sibs.',
  })
  mixedOrigin?: boolean | null;

  @Field(() => ID, { nullable: true, description: 'Dam, when known.' })
  damId?: string | null;

  @Field(() => ID, { nullable: true, description: 'The planned pairing it comes from.' })
  pairingId?: string | null;

  @Field(() => DateScalar, { nullable: true, description: 'Day of spawning.' })
  spawnedOn?: string | null;

  @Field(() => DateScalar, { nullable: true, description: 'Day of hatching.' })
  hatchDate?: string | null;

  @Field(() => String, { nullable: true, description: 'What the mating is for.' })
  purpose?: string | null;

  @Field(() => String, { nullable: true, description: 'Anything else.' })
  note?: string | null;

  @ConfirmedSpawn()
  confirmed?: boolean | null;
}

@InputType({ description: 'Corrects a spawn; absent fields stay, null clears.' })
export class CorrectSpawnInput extends correctionOf(CreateSpawnInput, 'spawn', ['pairingId']) {
  @Field(() => Boolean, { nullable: true, description: 'True when no young were raised.' })
  failed?: boolean | null;

  @Field(() => String, { nullable: true, description: 'Why it failed.' })
  failedReason?: string | null;
}

@InputType({ description: 'Gives records to fish of a spawn, when they are jarred and looked at.' })
export class AddFishToSpawnInput {
  @Field(() => ID, { description: 'The spawn.' })
  spawnId: string;

  @Field(() => Int, { defaultValue: 1, description: 'How many.' })
  number: number;

  @Field(() => Sex, {
    nullable: true,
    defaultValue: Sex.UNSEXED,
    description: 'Sex of all of them.',
  })
  sex: Sex;

  @Field(() => [String], {
    nullable: true,
    description: "Their tags; made from the spawn's when absent.",
  })
  tags?: string[] | null;

  @Field(() => Disposition, {
    nullable: true,
    defaultValue: Disposition.UNSORTED,
    description: 'What is decided about them.',
  })
  disposition: Disposition;
}

@InputType({ description: 'Something that happened.' })
export class SpawnEventInput {
  @IdSentOnce()
  id?: string | null;

  @Field(() => ID, { description: 'The spawn.' })
  spawnId: string;

  @Field(() => SpawnEventKind, { description: 'What.' })
  kind: SpawnEventKind;

  @Field(() => Date, { description: 'When.' })
  at: Date;

  @Field(() => String, { nullable: true, description: 'Anything else.' })
  note?: string | null;

  @Field(() => String, {
    nullable: true,
    description:
      "The person's time zone (IANA name), in which the day of the event is read; that of the request when absent.",
  })
  zone?: string | null;
}

@InputType({ description: 'A count at a stage.' })
export class SpawnCountInput {
  @IdSentOnce()
  id?: string | null;

  @Field(() => ID, { description: 'The spawn.' })
  spawnId: string;

  @Field(() => SpawnStage, { description: 'Stage.' })
  stage: SpawnStage;

  @Field(() => DateScalar, { description: 'Day.' })
  countedOn: string;

  @Field(() => Int, { description: 'How many.' })
  number: number;

  @Field(() => String, { nullable: true, description: 'Anything else.' })
  note?: string | null;
}

@InputType({ description: 'Losses or culls as a count with a reason.' })
export class SpawnLossInput {
  @IdSentOnce()
  id?: string | null;

  @Field(() => ID, { description: 'The spawn.' })
  spawnId: string;

  @Field(() => LossKind, { description: 'Died, culled or placed.' })
  kind: LossKind;

  @Field(() => DateScalar, { description: 'Day.' })
  on: string;

  @Field(() => Int, { description: 'How many.' })
  number: number;

  @Field(() => String, { description: 'Why.' })
  reason: string;

  @Field(() => Boolean, {
    nullable: true,
    defaultValue: false,
    description: 'True when the fault is thought heritable.',
  })
  heritable: boolean;

  @Field(() => String, { nullable: true, description: 'Locus the fault speaks of.' })
  locusId?: string | null;

  @Field(() => String, {
    nullable: true,
    description:
      'What was seen at that locus, by id or name; with it the fish count as evidence on the parents.',
  })
  phenotype?: string | null;

  @Field(() => String, { nullable: true, description: 'Anything else.' })
  note?: string | null;

  @EntryId()
  entryId?: string | null;
}

@InputType({ description: 'A count of one phenotype class; whole fish, never percentages.' })
export class ClassCountInput {
  @IdSentOnce()
  id?: string | null;

  @Field(() => ID, { description: 'The spawn.' })
  spawnId: string;

  @Field(() => [String], { description: 'Loci the classes are of.' })
  locusIds: string[];

  @Field(() => String, { description: 'The class.' })
  phenotype: string;

  @Field(() => Int, { description: 'How many.' })
  number: number;

  @Field(() => DateScalar, { description: 'Day.' })
  countedOn: string;

  @Field(() => String, { nullable: true, description: 'Anything else.' })
  note?: string | null;

  @EntryId()
  entryId?: string | null;
}

@InputType({ description: 'Withdraws an event, count, loss or class count of a spawn.' })
export class WithdrawFromSpawnLogInput {
  @Field(() => ID, { description: 'The spawn.' })
  spawnId: string;

  @Field(() => ID, { description: 'The record.' })
  recordId: string;

  @Field(() => String, { description: 'Why.' })
  reason: string;
}
