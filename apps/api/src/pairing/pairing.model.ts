import { Field, Float, ID, Int, ObjectType } from '@nestjs/graphql';
import { DateScalar } from '../graphql/date.scalar.js';
import { PageInfo as PageInfoModel } from '../graphql/page.js';
import { FishModel } from '../fish/fish.model.js';
import { PairingState, InbreedingBasis } from '../graphql/enums.js';
import { CrossClassModel, CrossExpectationModel } from '../heredity/heredity.model.js';
import {
  AncestorShareModel,
  InbreedingExplanationModel,
  PedigreeSliceModel,
} from '../kinship/kinship.model.js';
import { TraitDefinitionModel } from '../scores/score.model.js';
import { WithdrawalModel } from '../history/history.model.js';

@ObjectType('Pairing', { description: 'A planned pairing.' })
export class PairingModel {
  @Field(() => ID, { description: 'UUID.' })
  id: string;

  @Field(() => PairingState, { description: 'Where it stands.' })
  state: PairingState;

  @Field(() => DateScalar, { description: 'Day of the plan.' })
  plannedOn: string;

  @Field(() => String, { nullable: true, description: 'Why this pair.' })
  reason: string | null;

  @Field(() => String, { nullable: true, description: 'Anything else.' })
  note: string | null;

  @Field(() => Int, { description: 'Raised by one at each change.' })
  revision: number;

  @Field(() => WithdrawalModel, {
    nullable: true,
    description: 'Set when the record was withdrawn.',
  })
  withdrawn: WithdrawalModel | null;

  keeperId: string;
  sireId: string;
  damId: string;
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

  @Field(() => Float, {
    description: 'Sum of the weighted terms; a guide for sorting.',
  })
  merit: number;

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

@ObjectType('PairingCandidateEdge', { description: 'A pair in the list, with its cursor.' })
export class PairingCandidateEdgeModel {
  @Field(() => String, {
    description: 'Give it as `after` to start behind this pair.',
  })
  cursor: string;

  @Field(() => PairingCandidateModel, { description: 'The pair.' })
  node: PairingCandidateModel;
}

@ObjectType('PairingCandidateConnection', { description: 'One page of the judged pairs.' })
export class PairingCandidateConnectionModel {
  @Field(() => [PairingCandidateEdgeModel], { description: 'The pairs of this page.' })
  edges: PairingCandidateEdgeModel[];

  @Field(() => PageInfoModel, { description: 'Whether more follow.' })
  pageInfo: PageInfoModel;

  @Field(() => Int, { description: 'Pairs in the filtered list.' })
  totalCount: number;

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

  @Field(() => [ReasonModel], { description: 'Why.' })
  reasons: ReasonModel[];

  @Field(() => [PairWarningModel], { description: 'Cautions.' })
  warnings: PairWarningModel[];
}

@ObjectType('HypotheticalBrood', { description: 'What a pair would give.' })
export class HypotheticalBroodModel {
  @Field(() => FishModel, { description: 'The male.' })
  sire: FishModel;

  @Field(() => FishModel, { description: 'The female.' })
  dam: FishModel;

  @Field(() => Float, { description: 'F of the brood.' })
  inbreedingCoefficient: number;

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
    description: 'Ancestors of both and the brood itself, whose id is `hypothetical`.',
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
