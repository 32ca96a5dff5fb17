import { Field, Float, ID, InputType, Int } from '@nestjs/graphql';
import { correctionOf } from '../graphql/correction.js';
import { EntryId, SenderId } from '../graphql/sent.js';
import { registerEnumType } from '@nestjs/graphql';
import { DateScalar } from '../graphql/date.scalar.js';
import { Disposition, FishPlace, Sex, SortDirection } from '../graphql/enums.js';

export const FishSortField = {
  TAG: 'TAG',
  HATCH_DATE: 'HATCH_DATE',
  CREATED_AT: 'CREATED_AT',
  LINE: 'LINE',
  DISPOSITION: 'DISPOSITION',
} as const;
export type FishSortField = (typeof FishSortField)[keyof typeof FishSortField];
registerEnumType(FishSortField, {
  name: 'FishSortField',
  description: 'What a list of fish is sorted by.',
  valuesMap: {
    TAG: { description: 'Tag.' },
    HATCH_DATE: { description: 'Day of hatching.' },
    CREATED_AT: { description: 'When the record was made.' },
    LINE: { description: 'Code of the line.' },
    DISPOSITION: { description: 'Decision.' },
  },
});

@InputType({ description: 'A look recorded of a fish.' })
export class LookFilter {
  @Field(() => ID, { description: 'The locus.' })
  locusId: string;

  @Field(() => String, { description: 'Id of the look at that locus.' })
  look: string;
}

@InputType({ description: 'An allele in the genotype recorded of a fish.' })
export class AlleleFilter {
  @Field(() => ID, { description: 'The locus.' })
  locusId: string;

  @Field(() => [String], { description: 'How the allele may be written: its id, its symbol.' })
  writtenAs: string[];
}

@InputType({ description: 'The latest score of a trait, within bounds.' })
export class ScoreFilter {
  @Field(() => ID, { description: 'The trait.' })
  traitId: string;

  @Field(() => Float, { nullable: true, description: 'At least.' })
  least?: number | null;

  @Field(() => Float, { nullable: true, description: 'At most.' })
  most?: number | null;
}

@InputType({ description: 'Which fish to list; absent fields do not filter.' })
export class FishFilter {
  @Field(() => [ID], { nullable: true, description: 'Of these alone.' })
  ids?: string[] | null;

  @Field(() => String, { nullable: true, description: 'Part of the tag, name or note.' })
  text?: string | null;

  @Field(() => [ID], { nullable: true, description: 'Of these lines.' })
  lineIds?: string[] | null;

  @Field(() => [Sex], { nullable: true, description: 'Of these sexes.' })
  sexes?: Sex[] | null;

  @Field(() => [Disposition], { nullable: true, description: 'With one of these decisions.' })
  dispositions?: Disposition[] | null;

  @Field(() => Boolean, {
    nullable: true,
    description: 'Only fish in use, or only those not in use.',
  })
  inUse?: boolean | null;

  @Field(() => FishPlace, { nullable: true, description: 'Where it swims.' })
  place?: FishPlace | null;

  @Field(() => ID, { nullable: true, description: 'Of this spawn.' })
  spawnId?: string | null;

  @Field(() => ID, { nullable: true, description: 'By this sire.' })
  sireId?: string | null;

  @Field(() => ID, { nullable: true, description: 'Out of this dam.' })
  damId?: string | null;

  @Field(() => DateScalar, { nullable: true, description: 'Hatched on or after.' })
  hatchedFrom?: string | null;

  @Field(() => DateScalar, { nullable: true, description: 'Hatched on or before.' })
  hatchedTo?: string | null;

  @Field(() => LookFilter, { nullable: true, description: 'Seen with this look, at any time.' })
  look?: LookFilter | null;

  @Field(() => AlleleFilter, {
    nullable: true,
    description:
      'With this allele in the genotype on record; who is likely to carry it, `whoCarries` tells.',
  })
  allele?: AlleleFilter | null;

  @Field(() => ScoreFilter, { nullable: true, description: 'Scored so, by the latest score.' })
  score?: ScoreFilter | null;

  @Field(() => Boolean, { nullable: true, description: 'With a photo, or without one.' })
  hasPhoto?: boolean | null;

  @Field(() => [ID], { nullable: true, description: 'In one of these vessels now.' })
  vesselIds?: string[] | null;

  @Field(() => Boolean, {
    nullable: true,
    defaultValue: false,
    description: 'Withdrawn records too.',
  })
  includeWithdrawn: boolean;
}

@InputType({ description: 'Order of a list of fish.' })
export class FishSort {
  @Field(() => FishSortField, { description: 'What to sort by.' })
  field: FishSortField;

  @Field(() => SortDirection, {
    defaultValue: SortDirection.ASC,
    description: 'Which way.',
  })
  direction: SortDirection;
}

@InputType({
  description: 'A new fish: of a recorded spawn, or with what is known of its parents.',
})
export class CreateFishInput {
  @SenderId()
  id?: string | null;

  @Field(() => String, { description: 'Its tag.' })
  tag: string;

  @Field(() => String, { nullable: true, description: 'A name beside the tag.' })
  name?: string | null;

  @Field(() => Sex, {
    description: 'Sex as seen; unsexed and uncertain are answers.',
  })
  sex: Sex;

  @Field(() => DateScalar, { nullable: true, description: 'Day of hatching.' })
  hatchDate?: string | null;

  @Field(() => ID, { nullable: true, description: 'Its line.' })
  lineId?: string | null;

  @Field(() => ID, {
    nullable: true,
    description: "The spawn it came from; its sire and dam are the spawn's.",
  })
  spawnId?: string | null;

  @Field(() => ID, { nullable: true, description: 'Known sire, when there is no spawn record.' })
  sireId?: string | null;

  @Field(() => ID, { nullable: true, description: 'Known dam, when there is no spawn record.' })
  damId?: string | null;

  @Field(() => String, { nullable: true, description: 'Where it came from.' })
  origin?: string | null;

  @Field(() => Boolean, {
    nullable: true,
    description: 'Its unknown parents are known to be unrelated to the other fish.',
  })
  declaredUnrelated?: boolean | null;

  @Field(() => String, { nullable: true, description: 'Anything else.' })
  note?: string | null;

  @Field(() => Disposition, {
    nullable: true,
    defaultValue: Disposition.KEEPER,
    description: 'What is decided about it.',
  })
  disposition: Disposition;

  @EntryId()
  entryId?: string | null;
}

@InputType({ description: 'Corrects a fish; absent fields stay, null clears.' })
export class CorrectFishInput extends correctionOf(CreateFishInput, 'fish', ['disposition']) {
  @Field(() => ID, {
    nullable: true,
    description: 'The person with whom it swims; null when that is not known.',
  })
  swimsWithId?: string | null;
}

@InputType({ description: 'A decision about a fish: keep, hold, cull, place, or its death.' })
export class DecideFishInput {
  @Field(() => ID, { description: 'Id of the fish.' })
  id: string;

  @Field(() => Disposition, { description: 'The decision.' })
  disposition: Disposition;

  @Field(() => DateScalar, { description: 'The day.' })
  on: string;

  @Field(() => String, { nullable: true, description: 'Why; needed for a cull.' })
  reason?: string | null;

  @Field(() => ID, {
    nullable: true,
    description:
      'The person with whom it swims from then on; null for someone not on record. Absent: a fish that is placed leaves for an unknown place, and every other stays where it is.',
  })
  swimsWithId?: string | null;

  @Field(() => Int, { nullable: true, description: 'Revision the fish was read at.' })
  revision?: number | null;

  @EntryId()
  entryId?: string | null;
}
