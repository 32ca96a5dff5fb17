import { Field, Float, ObjectType, registerEnumType } from '@nestjs/graphql';
import { InbreedingBasis } from '../graphql/enums.js';
import { Count, Figure, FigureOrNone } from '../graphql/figure-fields.js';
import { ComputationModel } from '../jobs/computation.model.js';
import { LineModel } from '../shapes/line.model.js';
import { NamedFishModel } from '../shapes/named-fish.model.js';
import { OutcrossCourseModel } from './outcross-course.model.js';
import { StrategyForecastModel } from './forecast.model.js';
import { SimulatedCoursesModel } from './line-routes.model.js';

export const OutcrossVerdict = {
  OUTCROSS: 'outcross',
  BRINGS: 'brings',
  OTHER_PARTNER: 'other-partner',
  NOT_NOW: 'not-now',
} as const;
export type OutcrossVerdict = (typeof OutcrossVerdict)[keyof typeof OutcrossVerdict];
registerEnumType(OutcrossVerdict, {
  name: 'OutcrossVerdict',
  description: 'Whether to outcross, by the forecast of the line without and with it.',
  valuesMap: {
    OUTCROSS: { description: 'The line needs an outcross, and this one helps.' },
    BRINGS: { description: 'It brings a wanted allele that the line lacks.' },
    OTHER_PARTNER: { description: 'The line needs an outcross, but this one does not help.' },
    NOT_NOW: { description: 'Nothing that it gives is needed yet.' },
  },
});

export const OutcrossFigure = {
  INBREEDING: 'inbreeding',
  ALLELE: 'allele',
  TRAIT: 'trait',
} as const;
export type OutcrossFigure = (typeof OutcrossFigure)[keyof typeof OutcrossFigure];
registerEnumType(OutcrossFigure, {
  name: 'OutcrossFigure',
  description: 'What a figure of the last generation is of.',
  valuesMap: {
    INBREEDING: { description: 'Mean F.' },
    ALLELE: { description: 'Chance that a wanted allele is still there.' },
    TRAIT: { description: 'Mean of what is inherited of a trait, in its unit.' },
  },
});

@ObjectType('OutcrossPoint', {
  description: 'A figure of the last generation of the forecast, without the outcross and with it.',
})
export class OutcrossPointModel {
  @Field(() => OutcrossFigure, { description: 'What of.' })
  figure: OutcrossFigure;

  @Field(() => String, { description: 'The trait or the allele; empty for F.' })
  name: string;

  @Figure('Without the outcross.')
  without: number;

  @Figure('With it.')
  withIt: number;
}

@ObjectType('OutcrossForecast', { description: 'The line without the outcross and with it.' })
export class OutcrossForecastModel {
  @Field(() => StrategyForecastModel, { description: 'Under its plan alone.' })
  without: StrategyForecastModel;

  @Field(() => StrategyForecastModel, {
    description: 'Under its plan, one brood of the first generation being the outcross.',
  })
  withIt: StrategyForecastModel;

  @Field(() => OutcrossVerdict, { description: 'What speaks from both.' })
  verdict: OutcrossVerdict;

  @Field(() => [OutcrossPointModel], {
    description: 'What the line is heading for without it; at most 61.',
  })
  needs: OutcrossPointModel[];

  @Field(() => [OutcrossPointModel], {
    description: 'What it changes for the better by more than chance; at most 111.',
  })
  gains: OutcrossPointModel[];

  @Field(() => [OutcrossPointModel], { description: 'And for the worse; at most 111.' })
  costs: OutcrossPointModel[];
}

@ObjectType('OutcrossChance', {
  description:
    'How likely the outcross and its backcrosses, the best young kept each time, reach what the line is for.',
})
export class OutcrossChanceModel extends SimulatedCoursesModel {
  @Figure('Share of a brood that has to pass.')
  share: number;

  @Count('Generations at most, the cross with them.')
  generations: number;

  @Figure('Chance that it is reached by then, F of the brood under the ceiling.')
  chance: number;

  @Field(() => [Float], {
    description: 'Chance that it is reached by the first, second, ... generation; at most 6.',
  })
  byGeneration: number[];

  @FigureOrNone('Mean of months to the target where it is reached; null: it never was.')
  meanMonths: number | null;
}

@ObjectType('LineOutcross', {
  description: 'What an outcross of a line to one partner gives, generation by generation.',
})
export class LineOutcrossModel {
  @Field(() => LineModel, { description: 'The line.' })
  line: LineModel;

  @Count('Version of what the line is for; 0 while nobody has said it.')
  purposeVersion: number;

  @Field(() => String, { nullable: true, description: 'Why there is no answer.' })
  whyNone: string | null;

  @Field(() => ComputationModel, {
    nullable: true,
    description: 'The simulations, or figures that they wait for; null when all is done.',
  })
  waiting: ComputationModel | null;

  @Field(() => NamedFishModel, {
    nullable: true,
    description: 'The partner; null for one that is described.',
  })
  partner: NamedFishModel | null;

  @Field(() => NamedFishModel, { nullable: true, description: 'Its mate of the line.' })
  mate: NamedFishModel | null;

  @Field(() => NamedFishModel, {
    nullable: true,
    description: 'The fish of the line that the young are put back to.',
  })
  back: NamedFishModel | null;

  @Field(() => InbreedingBasis, {
    description:
      'How far the F can be trusted: the least that they can be where an origin is unknown.',
  })
  basis: InbreedingBasis;

  @FigureOrNone('Mean F of the fish of the line.')
  lineInbreeding: number | null;

  @Figure('Highest F of a brood, by what the line is for.')
  ceiling: number;

  @Count('Generations in which one fish can be a parent, by the ages of the line’s rules.')
  parentGenerations: number;

  @Field(() => OutcrossCourseModel, {
    nullable: true,
    description: 'The cross, and its young put back to the line again and again.',
  })
  backcrosses: OutcrossCourseModel | null;

  @Field(() => OutcrossCourseModel, {
    nullable: true,
    description: 'The cross, and its young bred brother to sister.',
  })
  within: OutcrossCourseModel | null;

  @Field(() => OutcrossChanceModel, {
    nullable: true,
    description:
      'Chance to succeed with the backcrosses; null while it is worked out, or without a target.',
  })
  chance: OutcrossChanceModel | null;

  @Field(() => String, { nullable: true, description: 'Why there is no such chance.' })
  whyNoChance: string | null;

  @Field(() => OutcrossForecastModel, {
    nullable: true,
    description: 'Null while it is worked out, or where the line cannot go on alone.',
  })
  forecast: OutcrossForecastModel | null;

  @Field(() => String, { nullable: true, description: 'Why there is no forecast.' })
  whyNoForecast: string | null;

  @Field(() => [String], {
    description: 'What is to be known of the partner before it is paired; at most 5.',
  })
  cautions: string[];

  @Field(() => [String], {
    description: 'What is not counted, or was assumed, in sentences; at most 80.',
  })
  leftOut: string[];
}
