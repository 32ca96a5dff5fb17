import { Field, Float, Int, ObjectType, registerEnumType } from '@nestjs/graphql';
import { DateScalar } from '../graphql/date.scalar.js';
import { ComputationModel } from '../jobs/computation.model.js';
import { PassingOfPairModel } from '../pairing/worth.model.js';
import { FishModel } from '../shapes/fish.model.js';
import { RoundModel } from './round.model.js';

export const PairNeed = { WISH: 'wish', WORTH: 'worth', KINSHIP: 'kinship' } as const;
export type PairNeed = (typeof PairNeed)[keyof typeof PairNeed];
registerEnumType(PairNeed, {
  name: 'PairNeed',
  description: 'Why a pair is among those proposed.',
  valuesMap: {
    WISH: { description: 'You asked for it, or for one of its fish.' },
    WORTH: { description: 'It would be there without any limit on kinship too.' },
    KINSHIP: { description: 'It came in because its fish are less related to the others.' },
  },
});

@ObjectType('PairOfFish', { description: 'A male and a female.' })
export class PairOfFishModel {
  @Field(() => FishModel, { description: 'The male.' })
  sire: FishModel;

  @Field(() => FishModel, { description: 'The female.' })
  dam: FishModel;
}

@ObjectType('ProposalChange', { description: 'What a change of the proposed pairs costs.' })
export class ProposalChangeModel {
  @Field(() => Float, {
    description: 'Worth lost of all pairs together, in points for one young kept of each.',
  })
  lost: number;

  @Field(() => Float, { description: 'Standard error of that loss.' })
  standardError: number;

  @Field(() => Boolean, {
    description: 'Whether it is more than twice that error; else the two sets are not told apart.',
  })
  toldApart: boolean;

  @Field(() => [PairOfFishModel], { description: 'Pairs that come in.' })
  instead: PairOfFishModel[];
}

@ObjectType('StandingPairs', {
  description:
    'Pairs of rounds that go on (one of their pairs still waits for its spawn), and pairs planned by hand that wait. They take room, use fish and count for kinship.',
})
export class StandingPairsModel {
  @Field(() => [RoundModel], { description: 'These rounds, the first planned first.' })
  rounds: RoundModel[];

  @Field(() => Int, { description: 'Pairs that wait for their spawn.' })
  waitingCount: number;

  @Field(() => Int, {
    description: 'Of those that wait, pairs planned by hand, in no round, with a fish of the line.',
  })
  byHandCount: number;

  @Field(() => Int, { description: 'Pairs that have spawned.' })
  spawnedCount: number;

  @Field(() => [PassingOfPairModel], {
    description: 'The fry to raise of each pair of which both fish are still considered.',
  })
  passing: PassingOfPairModel[];
}

@ObjectType('ProposedPair', { description: 'A pair that is proposed, and what it is there for.' })
export class ProposedPairModel extends PairOfFishModel {
  @Field(() => Float, { description: 'Worth in points for one young kept.' })
  worth: number;

  @Field(() => Float, { description: 'Standard error of that worth.' })
  standardError: number;

  @Field(() => PassingOfPairModel, {
    description: 'The young to keep of its brood, and the fry to raise for them.',
  })
  passing: PassingOfPairModel;

  @Field(() => Float, { description: 'F of the brood.' })
  inbreedingCoefficient: number;

  @Field(() => PairNeed, { description: 'Why it is there.' })
  need: PairNeed;

  @Field(() => Int, { description: 'Its place by worth among all pairs that may be made.' })
  place: number;

  @Field(() => ProposalChangeModel, {
    nullable: true,
    description: 'What becomes of the set without it; null where it was not worked out.',
  })
  without: ProposalChangeModel | null;
}

@ObjectType('ProposalPoint', {
  description: 'One point of the line of worth against kinship: the best pairs within a limit.',
})
export class ProposalPointModel {
  @Field(() => Float, { description: 'Mean worth of its pairs.' })
  worth: number;

  @Field(() => Float, { description: 'Mean kinship of the parents.' })
  kinship: number;

  @Field(() => Float, { description: 'Mean F of the broods.' })
  inbreeding: number;

  @Field(() => Boolean, {
    description:
      'Whether its worth and that of the proposed pairs differ by more than twice the error of their difference.',
  })
  toldApart: boolean;
}

@ObjectType('PairProposal', { description: 'The pairs to make now for a line, as a set.' })
export class PairProposalModel {
  @Field(() => Int, {
    nullable: true,
    description: 'Young that can be raised in all, as the line says; null where it sets no limit.',
  })
  fry: number | null;

  @Field(() => Int, {
    description: 'Version of what the line is for; 0 while nobody has said it.',
  })
  purposeVersion: number;

  @Field(() => Boolean, {
    description:
      'False when nothing is wanted of the young: pairs are then chosen by kinship alone.',
  })
  hasAims: boolean;

  @Field(() => String, {
    nullable: true,
    description: 'Why nothing can be proposed; null when something is.',
  })
  problem: string | null;

  @Field(() => ComputationModel, {
    nullable: true,
    description: 'The long computation that is waited for; nothing is proposed then.',
  })
  waiting: ComputationModel | null;

  @Field(() => DateScalar, {
    description:
      'Day that the fish are judged for: today, or the first day for pairs of the line where that is still to come.',
  })
  day: string;

  @Field(() => DateScalar, {
    nullable: true,
    description: 'Last day for pairs, as the line says; null where it says none.',
  })
  lastDay: string | null;

  @Field(() => Int, { description: 'Males considered.' })
  maleCount: number;

  @Field(() => Int, { description: 'Females considered.' })
  femaleCount: number;

  @Field(() => Int, { description: 'Pairs that may be made.' })
  possibleCount: number;

  @Field(() => StandingPairsModel, {
    nullable: true,
    description: 'Pairs that are planned already; the proposal comes beside them. Null: none.',
  })
  standing: StandingPairsModel | null;

  @Field(() => Int, {
    description: 'Broods asked for, else those that there is room for beside the pairs that stand.',
  })
  broods: number;

  @Field(() => Int, { description: 'Most broods of one fish.' })
  broodsPerFish: number;

  @Field(() => Float, { description: 'Highest F of a brood, as the line is for.' })
  ceiling: number;

  @Field(() => Float, {
    nullable: true,
    description:
      'The lowest F with which so many broods can be made, where that is above the ceiling and was kept to in its place; else null.',
  })
  raisedCeiling: number | null;

  @Field(() => Float, {
    nullable: true,
    description: 'Highest mean kinship of the parents that was kept to; null: no limit.',
  })
  kinshipLimit: number | null;

  @Field(() => Float, {
    nullable: true,
    description: 'The limit asked for, where so few broods cannot keep to it; else null.',
  })
  unreachableLimit: number | null;

  @Field(() => Float, { description: 'Mean kinship of the fish considered, as they are.' })
  presentKinship: number;

  @Field(() => [ProposedPairModel], { description: 'The pairs.' })
  pairs: ProposedPairModel[];

  @Field(() => Float, { description: 'Mean worth of the pairs, in points for one young kept.' })
  worth: number;

  @Field(() => Float, { description: 'Standard error of that mean.' })
  standardError: number;

  @Field(() => Float, { description: 'No choice within the limit has a mean worth above this.' })
  worthBound: number;

  @Field(() => Float, {
    description:
      'Mean kinship of the parents, each by its broods, themselves included; with those of the pairs that stand.',
  })
  kinship: number;

  @Field(() => Float, { description: 'Mean F of the broods.' })
  inbreeding: number;

  @Field(() => [ProposalPointModel], {
    description: 'Worth against kinship, the least related first.',
  })
  frontier: ProposalPointModel[];

  @Field(() => ProposalChangeModel, {
    nullable: true,
    description: 'What your wishes cost against the proposal without them; null without any.',
  })
  price: ProposalChangeModel | null;
}
