import { Field, Float, Int, ObjectType, registerEnumType } from '@nestjs/graphql';
import { Count, Figure } from '../graphql/figure-fields.js';
import { ComputationModel } from '../jobs/computation.model.js';
import { LineModel } from '../shapes/line.model.js';
import { NamedFishModel } from '../shapes/named-fish.model.js';

export const RouteScheme = {
  SIBLINGS: 'siblings',
  BACK_TO_SIRE: 'back-to-sire',
  BACK_TO_DAM: 'back-to-dam',
  OUTCROSS_THEN_BACK: 'outcross-then-back',
  TWO_SUB_LINES: 'two-sub-lines',
} as const;
export type RouteScheme = (typeof RouteScheme)[keyof typeof RouteScheme];
registerEnumType(RouteScheme, {
  name: 'RouteScheme',
  description: 'How the generations of a route follow each other.',
  valuesMap: {
    SIBLINGS: { description: 'Brother to sister in each generation.' },
    BACK_TO_SIRE: { description: 'The best daughters back to the first sire.' },
    BACK_TO_DAM: { description: 'The best sons back to the first dam.' },
    OUTCROSS_THEN_BACK: {
      description: 'A cross to a fish of another line, then back to the line.',
    },
    TWO_SUB_LINES: { description: 'Two pairs bred apart, then crossed.' },
  },
});

@ObjectType('FigureRange', { description: 'A simulated figure: its mean, and where 8 of 10 lie.' })
export class FigureRangeModel {
  @Figure('Mean.')
  mean: number;

  @Figure('One of ten lies below.')
  low: number;

  @Figure('One of ten lies above.')
  high: number;
}

/** What simulated courses to a target have in common. */
@ObjectType({ isAbstract: true })
export class SimulatedCoursesModel {
  @Figure('Standard error of the chance, from the number of simulations.')
  standardError: number;

  @Figure('Lower end of the 95 % interval of the chance.')
  low: number;

  @Figure('Upper end of the 95 % interval of the chance.')
  high: number;

  @Count('Simulated courses.')
  simulations: number;

  @Figure('Mean of the young to raise to the age of sorting, to the target or the end.')
  fry: number;

  @Field(() => FigureRangeModel, { description: 'F of the last brood.' })
  inbreeding: FigureRangeModel;
}

@ObjectType('RouteParent', { description: 'A parent of a planned brood.' })
export class RouteParentModel {
  @Field(() => NamedFishModel, {
    nullable: true,
    description: 'The fish; null for the best young of a brood of the route.',
  })
  fish: NamedFishModel | null;

  @Field(() => Int, { nullable: true, description: 'Generation of the brood it is chosen from.' })
  fromGeneration: number | null;

  @Field(() => Int, { nullable: true, description: 'Which brood of that generation, from 1.' })
  fromBrood: number | null;
}

@ObjectType('RouteBrood', { description: 'A brood that a route plans.' })
export class RouteBroodModel {
  @Count('Generation, from 1.')
  generation: number;

  @Field(() => RouteParentModel, { description: 'Sire.' })
  sire: RouteParentModel;

  @Field(() => RouteParentModel, { description: 'Dam.' })
  dam: RouteParentModel;
}

@ObjectType('LineRoute', {
  description: 'A route of some generations, and what simulations say of it.',
})
export class LineRouteModel extends SimulatedCoursesModel {
  @Field(() => String, { description: 'Names it within this search.' })
  key: string;

  @Field(() => RouteScheme, { description: 'How its generations follow each other.' })
  scheme: RouteScheme;

  @Field(() => [NamedFishModel], { description: 'The fish it begins with; at most 4.' })
  fish: NamedFishModel[];

  @Field(() => [RouteBroodModel], { description: 'Its broods in their order; at most 16.' })
  broods: RouteBroodModel[];

  @Figure('Chance that the target is reached within its generations.')
  chance: number;

  @Field(() => [Float], {
    description: 'Chance that it is reached by the first, second, ... generation; at most 8.',
  })
  byGeneration: number[];

  @Field(() => Float, {
    nullable: true,
    description: 'Mean of generations to the target where it is reached; null: it never was.',
  })
  meanGenerations: number | null;

  @Field(() => Float, { nullable: true, description: 'The same in months.' })
  meanMonths: number | null;

  @Figure('Mean share of the last brood that passes.')
  passing: number;

  @Figure('Share of courses that ended because each pair would have passed the ceiling on F.')
  endedByCeiling: number;

  @Field(() => Int, {
    nullable: true,
    description: 'Simulations after which it was dropped for being behind; null: it was not.',
  })
  droppedAfter: number | null;
}

@ObjectType('LineRoutes', { description: 'Routes of a line to what it is for, the best first.' })
export class LineRoutesModel {
  @Field(() => LineModel, { description: 'The line.' })
  line: LineModel;

  @Count('Version of what the line is for; 0 while nobody has said it.')
  purposeVersion: number;

  @Field(() => String, { nullable: true, description: 'Why there is no route.' })
  whyNone: string | null;

  @Field(() => ComputationModel, {
    nullable: true,
    description: 'The search, or figures that it waits for; null when it is done.',
  })
  waiting: ComputationModel | null;

  @Field(() => [LineRouteModel], {
    description: 'As far as they are known; at most 60, those dropped early last.',
  })
  routes: LineRouteModel[];

  @Count('Pairs of the line.')
  pairs: number;

  @Count('Pairs that routes were made of.')
  pairsTried: number;

  @Count('Pairs of the line whose first brood would pass the ceiling on F.')
  overCeiling: number;

  @Count('Crosses to fish of other lines.')
  outcrosses: number;

  @Count('Crosses that routes were made of.')
  outcrossesTried: number;

  @Field(() => [String], {
    description: 'What is not counted, or was assumed, in sentences; at most 60.',
  })
  leftOut: string[];

  @Field(() => [String], {
    description:
      'What is taken for now, while values of traits are still worked out, in sentences; routes are searched again then, and none is adopted before. At most 50.',
  })
  forNow: string[];

  @Count('Days from one generation to the next that months are worked out with.')
  daysPerGeneration: number;

  @Field(() => String, { description: 'What these days rest on.' })
  daysBasis: string;
}
