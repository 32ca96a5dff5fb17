import { Field, Float, ID, Int, ObjectType, registerEnumType } from '@nestjs/graphql';
import { DateScalar } from '../graphql/date.scalar.js';
import { LineModel } from '../shapes/line.model.js';
import { TraitDefinitionModel } from '../shapes/score.model.js';
import { MeritRefusalModel } from './trait-merit.model.js';

export const LoadStage = {
  HATCH: 'hatch',
  FREE_SWIMMING: 'free_swimming',
  SORTING: 'sorting',
  SOUND: 'sound',
} as const;
export type LoadStage = (typeof LoadStage)[keyof typeof LoadStage];
registerEnumType(LoadStage, {
  name: 'LoadStage',
  description: 'At which stage inbreeding may cost young.',
  valuesMap: {
    HATCH: { description: 'Eggs that hatched.' },
    FREE_SWIMMING: { description: 'Hatched fry that swam free.' },
    SORTING: { description: 'Free-swimming fry that lived to be jarred or sorted.' },
    SOUND: { description: 'Fry that were not culled for a fault taken as inherited.' },
  },
});

export const LoadColumn = { YOUNG: 'young', DAM: 'dam', RECENT: 'recent', OLD: 'old' } as const;
export type LoadColumn = (typeof LoadColumn)[keyof typeof LoadColumn];
registerEnumType(LoadColumn, {
  name: 'LoadColumn',
  description: 'Whose inbreeding.',
  valuesMap: {
    YOUNG: { description: 'Of the young.' },
    DAM: { description: 'Of the dam.' },
    RECENT: { description: 'Of the young, from the last three generations.' },
    OLD: { description: 'Of the young, from before.' },
  },
});

export const LoadVerdict = {
  COSTS: 'costs',
  CANNOT_TELL_YET: 'cannot tell yet',
  HELPS: 'helps',
} as const;
export type LoadVerdict = (typeof LoadVerdict)[keyof typeof LoadVerdict];
registerEnumType(LoadVerdict, {
  name: 'LoadVerdict',
  description:
    'What these broods say. They can fail to show a cost; they never show that there is none.',
  valuesMap: {
    COSTS: { description: 'More inbred broods lose more.' },
    CANNOT_TELL_YET: { description: 'These broods cannot tell.' },
    HELPS: { description: 'More inbred broods lose less: look for another cause first.' },
  },
});

@ObjectType('InbreedingCost', { description: 'What inbreeding costs, by whose it is.' })
export class InbreedingCostModel {
  @Field(() => LoadColumn, { description: 'Whose inbreeding.' })
  column: LoadColumn;

  @Field(() => Float, {
    description: 'Lethal equivalents a gamete: −ln of survival rises by it from F = 0 to F = 1.',
  })
  perGamete: number;

  @Field(() => Float, {
    nullable: true,
    description: 'Lower end of its interval of 95 %; null: none.',
  })
  low: number | null;

  @Field(() => Float, { nullable: true, description: 'Upper end; null: none.' })
  high: number | null;

  @Field(() => Float, {
    nullable: true,
    description:
      'The smallest cost that broods like these would have shown, four times in five; null: none however large.',
  })
  smallestDetectable: number | null;

  @Field(() => LoadVerdict, { description: 'What these broods say.' })
  verdict: LoadVerdict;

  @Field(() => Float, {
    description: 'Share of young that a mating of full sibs (F of 0.25) costs by this estimate.',
  })
  costOfSibMating: number;
}

@ObjectType('LoadPoint', { description: 'A counted brood, for a picture.' })
export class LoadPointModel {
  @Field(() => ID, { description: 'The brood.' })
  spawnId: string;

  @Field(() => String, { description: 'Its tag.' })
  tag: string;

  @Field(() => DateScalar, { nullable: true, description: 'Day of spawning, or of hatching.' })
  on: string | null;

  @Field(() => Float, { description: 'F of the young.' })
  young: number;

  @Field(() => Float, { description: 'F of the dam.' })
  dam: number;

  @Field(() => Int, { description: 'Alive, or sound, at the end of the stage.' })
  survivors: number;

  @Field(() => Int, { description: 'At its beginning.' })
  counted: number;
}

@ObjectType('StageLoad', { description: 'What inbreeding costs at one stage.' })
export class StageLoadModel {
  @Field(() => LoadStage, { description: 'The stage.' })
  stage: LoadStage;

  @Field(() => Int, { description: 'Broods counted at both ends of it.' })
  broods: number;

  @Field(() => [InbreedingCostModel], {
    description:
      'By F of the young and of the dam; a column in which all broods are alike is not fitted.',
  })
  costs: InbreedingCostModel[];

  @Field(() => [InbreedingCostModel], {
    description: 'Old and recent inbreeding apart; empty when the broods cannot tell them apart.',
  })
  byAge: InbreedingCostModel[];

  @Field(() => Float, { nullable: true, description: 'Share that lives without inbreeding.' })
  survivalWithout: number | null;

  @Field(() => Float, {
    nullable: true,
    description:
      'How alike young of one brood fare beyond what inbreeding explains: a correlation.',
  })
  betweenBroods: number | null;

  @Field(() => MeritRefusalModel, { nullable: true, description: 'Why there is no figure.' })
  refusal: MeritRefusalModel | null;

  @Field(() => [LoadPointModel], { description: 'The broods.' })
  points: LoadPointModel[];
}

export const ChangeVerdict = {
  LOWERS: 'lowers',
  CANNOT_TELL_YET: 'cannot tell yet',
  RAISES: 'raises',
} as const;
export type ChangeVerdict = (typeof ChangeVerdict)[keyof typeof ChangeVerdict];
registerEnumType(ChangeVerdict, {
  name: 'ChangeVerdict',
  description: 'What these broods say. They never show that there is no effect.',
  valuesMap: {
    LOWERS: { description: 'The more inbred, the smaller.' },
    CANNOT_TELL_YET: { description: 'These broods cannot tell.' },
    RAISES: { description: 'The more inbred, the larger: look for another cause first.' },
  },
});

@ObjectType('MeasureChange', { description: 'What inbreeding does to a size, by whose it is.' })
export class MeasureChangeModel {
  @Field(() => LoadColumn, { description: 'Whose inbreeding.' })
  column: LoadColumn;

  @Field(() => Float, {
    description:
      'Change at an F of 0.25 against an F of 0: in the unit of the trait; of brood sizes as a share.',
  })
  atSibMating: number;

  @Field(() => Float, { description: 'Lower end of its interval of 95 %.' })
  low: number;

  @Field(() => Float, { description: 'Upper end.' })
  high: number;

  @Field(() => Float, {
    description: 'The smallest loss that broods like these would have shown, four times in five.',
  })
  smallest: number;

  @Field(() => ChangeVerdict, { description: 'What these broods say.' })
  verdict: ChangeVerdict;
}

@ObjectType('SizePoint', { description: 'A brood and its size, for a picture.' })
export class SizePointModel {
  @Field(() => ID, { description: 'The brood.' })
  spawnId: string;

  @Field(() => String, { description: 'Its tag.' })
  tag: string;

  @Field(() => Float, { description: 'F of the young.' })
  young: number;

  @Field(() => Float, {
    description:
      'Its size, or the mean of its fish, at the mean of all else that is known to move it: season, sex, age, F of the dam.',
  })
  size: number;

  @Field(() => Int, { description: 'Scores, or broods, behind it.' })
  counted: number;
}

export const BroodSize = { EGGS: 'eggs', FREE_SWIMMING: 'free_swimming' } as const;
export type BroodSize = (typeof BroodSize)[keyof typeof BroodSize];
registerEnumType(BroodSize, {
  name: 'BroodSize',
  description: 'How the size of a brood is counted.',
  valuesMap: {
    EGGS: { description: 'Eggs laid.' },
    FREE_SWIMMING: { description: 'Fry that swam free.' },
  },
});

/** What both sizes of broods and measured traits are told by. */
@ObjectType({ isAbstract: true })
class SizeLoadModel {
  @Field(() => [MeasureChangeModel], {
    description: 'Old and recent inbreeding apart; empty when the broods cannot tell them apart.',
  })
  byAge: MeasureChangeModel[];

  @Field(() => Float, {
    nullable: true,
    description: 'The size without inbreeding of the young; null where there is no figure.',
  })
  level: number | null;

  @Field(() => [SizePointModel], { description: 'The broods.' })
  points: SizePointModel[];

  @Field(() => MeritRefusalModel, { nullable: true, description: 'Why there is no figure.' })
  refusal: MeritRefusalModel | null;
}

@ObjectType('BroodSizeLoad', { description: 'What inbreeding does to the size of broods.' })
export class BroodSizeLoadModel extends SizeLoadModel {
  @Field(() => BroodSize, { description: 'How the size is counted.' })
  size: BroodSize;

  @Field(() => Int, { description: 'Broods counted.' })
  broods: number;

  @Field(() => [MeasureChangeModel], {
    description: 'By F of the young and of the dam; empty where there is no figure.',
  })
  changes: MeasureChangeModel[];
}

@ObjectType('TraitInbreedingLoad', {
  description: 'What inbreeding does to a measured trait in a line, from its own fish.',
})
export class TraitInbreedingLoadModel extends SizeLoadModel {
  @Field(() => TraitDefinitionModel, { description: 'The trait.' })
  trait: TraitDefinitionModel;

  @Field(() => Int, { description: 'Scored fish of the line with both parents on record.' })
  fish: number;

  @Field(() => Int, { description: 'Broods they are of.' })
  broods: number;

  @Field(() => Int, {
    description: 'Older looks that are not in the figures: only the latest are gone over.',
  })
  looksLeftOut: number;

  @Field(() => [MeasureChangeModel], {
    description:
      'By F of the fish itself (`YOUNG`) and of its dam; empty where there is no figure.',
  })
  changes: MeasureChangeModel[];
}

@ObjectType('LineInbreedingLoad', {
  description:
    'What inbreeding costs in a line, from its own broods. Nothing of other stocks is in it.',
})
export class LineInbreedingLoadModel {
  @Field(() => LineModel, { description: 'The line.' })
  line: LineModel;

  @Field(() => [StageLoadModel], { description: 'Stage by stage.' })
  stages: StageLoadModel[];

  @Field(() => [BroodSizeLoadModel], { description: 'Sizes of broods.' })
  broodSizes: BroodSizeLoadModel[];

  @Field(() => Int, {
    description:
      'Older counted broods of the line that are not in the figures: only the latest are gone over.',
  })
  broodsLeftOut: number;
}
