import { Field, Float, ID, Int, ObjectType, registerEnumType } from '@nestjs/graphql';
import { DateScalar } from '../graphql/date.scalar.js';
import { ComputationModel } from '../jobs/computation.model.js';
import { connectionOf } from '../graphql/connection.js';
import { FishModel } from '../shapes/fish.model.js';
import { PairingState, InbreedingBasis } from '../graphql/enums.js';
import { CrossClassModel, CrossExpectationModel } from '../shapes/heredity.model.js';
import {
  AncestorShareModel,
  InbreedingExplanationModel,
  PedigreeSliceModel,
} from '../kinship/kinship.model.js';
import { TraitDefinitionModel } from '../shapes/score.model.js';
import {
  ConditionOfFishModel,
  LineWithYoungModel,
  PairBasisModel,
  PassingOfPairModel,
  WorthOfPairModel,
} from './worth.model.js';
import { RecordModel } from '../shapes/record.model.js';

@ObjectType('Pairing', { description: 'A planned pairing.' })
export class PairingModel extends RecordModel {
  @Field(() => PairingState, { description: 'Where it stands.' })
  state: PairingState;

  @Field(() => DateScalar, { description: 'Day of the plan.' })
  plannedOn: string;

  @Field(() => String, { nullable: true, description: 'Why this pair.' })
  reason: string | null;

  @Field(() => String, { nullable: true, description: 'Anything else.' })
  note: string | null;

  personId: string;
  sireId: string;
  damId: string;
  /** Loaded as `maker`. */
  makerId: string | null;
}

@ObjectType('Reason', { description: 'One reason for or against a pairing.' })
export class ReasonModel {
  @Field(() => String, { description: 'Code.' })
  code: string;

  @Field(() => String, { description: 'In plain words.' })
  text: string;

  @Field(() => Float, { nullable: true, description: 'The figure behind it.' })
  figure: number | null;
}

export const PlanningEffect = { FREE: 'free', CONFIRM: 'confirm', REFUSE: 'refuse' } as const;
export type PlanningEffect = (typeof PlanningEffect)[keyof typeof PlanningEffect];
registerEnumType(PlanningEffect, {
  name: 'PlanningEffect',
  description: 'What a warning means for planning a pair.',
  valuesMap: {
    FREE: { description: 'It may be planned.' },
    CONFIRM: { description: 'It may be planned when that is confirmed.' },
    REFUSE: { description: 'It cannot be planned.' },
  },
});

@ObjectType('PairWarning', { description: 'A warning about a pairing.' })
export class PairWarningModel {
  @Field(() => String, { description: 'Code.' })
  code: string;

  @Field(() => String, { description: 'note, caution or stop.' })
  severity: string;

  @Field(() => String, { description: 'In plain words.' })
  text: string;

  @Field(() => String, { description: 'What it rests on.' })
  basis: string;

  @Field(() => PlanningEffect, { description: 'What it means for planning the pair.' })
  planning: PlanningEffect;
}

@ObjectType('TraitMean', {
  description: 'Mid-parent mean of a trait: a mean, not a prediction of breeding value.',
})
export class TraitMeanModel {
  @Field(() => TraitDefinitionModel, { description: 'The trait.' })
  trait: TraitDefinitionModel;

  @Field(() => Float, { nullable: true, description: 'Latest standing score of the sire.' })
  sireValue: number | null;

  @Field(() => Float, { nullable: true, description: 'Latest standing score of the dam.' })
  damValue: number | null;

  @Field(() => Float, { nullable: true, description: 'Their mean.' })
  mean: number | null;
}

@ObjectType('PairingCandidate', { description: 'One male by one female, judged.' })
export class PairingCandidateModel {
  @Field(() => FishModel, { description: 'The male.' })
  sire: FishModel;

  @Field(() => FishModel, { description: 'The female.' })
  dam: FishModel;

  @Field(() => Float, { description: 'F of the brood.' })
  inbreedingCoefficient: number;

  @Field(() => InbreedingBasis, { description: 'How far this F can be trusted.' })
  inbreedingBasis: InbreedingBasis;

  @Field(() => WorthOfPairModel, { description: 'What the pair is worth for the line.' })
  worth: WorthOfPairModel;

  @Field(() => Boolean, { description: 'True when a warning says stop.' })
  discouraged: boolean;

  @Field(() => [AncestorShareModel], { description: 'Main common ancestors.' })
  mainAncestors: AncestorShareModel[];

  @Field(() => [CrossClassModel], {
    description: 'Expected classes at the loci known on both sides.',
  })
  classes: CrossClassModel[];

  @Field(() => [TraitMeanModel], { description: 'Mid-parent means.' })
  traitMeans: TraitMeanModel[];

  @Field(() => [PairWarningModel], { description: 'Warnings, gravest first.' })
  warnings: PairWarningModel[];

  @Field(() => [ReasonModel], { description: 'Reasons for and against.' })
  reasons: ReasonModel[];

  @Field(() => ID, { nullable: true, description: 'The plan, when this pair is planned already.' })
  plannedPairingId: string | null;
}

@ObjectType('PairingCandidateConnection', { description: 'One page of the judged pairs.' })
export class PairingCandidateConnectionModel extends connectionOf(
  PairingCandidateModel,
  'PairingCandidate',
  'pairs',
  'Pairs that pass the filter; all of them are judged.',
) {
  @Field(() => Int, {
    description: 'Of those, how many can be paged through: the first of the order.',
  })
  listedCount: number;

  @Field(() => Int, { description: 'Fish in use that are unsexed or uncertain, and in no pair.' })
  unsexedCount: number;

  @Field(() => Int, {
    description: 'Fish in use that are not listed because they do not swim here.',
  })
  awayCount: number;

  @Field(() => ComputationModel, {
    nullable: true,
    description: 'The long computation that the list is waited from; there are no edges then.',
  })
  waiting: ComputationModel | null;

  @Field(() => PairBasisModel, { description: 'What the pairs are judged by.' })
  basis: PairBasisModel;

  @Field(() => Int, { description: 'Males considered.' })
  maleCount: number;

  @Field(() => Int, { description: 'Females considered.' })
  femaleCount: number;
}

@ObjectType('OutcrossSuggestion', { description: 'A partner from outside the line.' })
export class OutcrossSuggestionModel {
  @Field(() => FishModel, { description: 'The partner.' })
  fish: FishModel;

  @Field(() => Float, {
    description: 'Mean coancestry with the fish in use of the line.',
  })
  meanCoancestry: number;

  @Field(() => InbreedingBasis, {
    description:
      'How far that mean can be trusted: the least that it can be where an origin is unknown.',
  })
  basis: InbreedingBasis;

  @Field(() => [ReasonModel], { description: 'Why.' })
  reasons: ReasonModel[];

  @Field(() => [PairWarningModel], { description: 'Cautions.' })
  warnings: PairWarningModel[];
}

@ObjectType('PlannedBrood', { description: 'What a pair would give.' })
export class PlannedBroodModel {
  @Field(() => FishModel, { description: 'The male.' })
  sire: FishModel;

  @Field(() => FishModel, { description: 'The female.' })
  dam: FishModel;

  @Field(() => Float, { description: 'F of the brood.' })
  inbreedingCoefficient: number;

  @Field(() => WorthOfPairModel, { description: 'What the pair is worth for the line.' })
  worth: WorthOfPairModel;

  @Field(() => PassingOfPairModel, {
    description: 'How likely the brood gives the young that are to be kept of it.',
  })
  passing: PassingOfPairModel;

  @Field(() => PairBasisModel, { description: 'What the pair is judged by.' })
  basis: PairBasisModel;

  @Field(() => ConditionOfFishModel, { description: 'What the pair finds the male in.' })
  sireCondition: ConditionOfFishModel;

  @Field(() => ConditionOfFishModel, { description: 'What the pair finds the female in.' })
  damCondition: ConditionOfFishModel;

  @Field(() => LineWithYoungModel, {
    nullable: true,
    description: 'Kinship of the line with the young of the pair; null for a pair of two lines.',
  })
  lineWithYoung: LineWithYoungModel | null;

  @Field(() => Boolean, { description: 'True when a warning says stop.' })
  discouraged: boolean;

  @Field(() => [AncestorShareModel], { description: 'Main common ancestors.' })
  mainAncestors: AncestorShareModel[];

  @Field(() => ID, { nullable: true, description: 'The plan, when this pair is planned already.' })
  plannedPairingId: string | null;

  @Field(() => InbreedingBasis, { description: 'How far this F can be trusted.' })
  inbreedingBasis: InbreedingBasis;

  @Field(() => String, {
    nullable: true,
    description:
      'Why its F is not wholly known: whose parents nobody knows; null when it is known.',
  })
  inbreedingNote: string | null;

  @Field(() => InbreedingExplanationModel, { description: 'Where F comes from.' })
  inbreeding: InbreedingExplanationModel;

  @Field(() => PedigreeSliceModel, {
    description: 'Ancestors of both and the brood itself, whose id is `planned`.',
  })
  slice: PedigreeSliceModel;

  @Field(() => CrossExpectationModel, { description: 'Expected classes.' })
  classes: CrossExpectationModel;

  @Field(() => [PairWarningModel], { description: 'Warnings.' })
  warnings: PairWarningModel[];

  @Field(() => [TraitMeanModel], { description: 'Mid-parent means.' })
  traitMeans: TraitMeanModel[];

  @Field(() => [ReasonModel], { description: 'Reasons for and against.' })
  reasons: ReasonModel[];
}
