import { Field, Float, ID, InputType, Int } from '@nestjs/graphql';
import type { FieldProblem } from '../errors/request-error.js';

/** A whole number that stands for itself when none is given. */
export const CountWith = (description: string, defaultValue: number): PropertyDecorator =>
  Field(() => Int, { description, defaultValue });

/** What is wrong with a number of generations, or of young of a brood. */
export const numberProblems = <Field extends 'generations' | 'forecastGenerations' | 'fryPerBrood'>(
  input: Readonly<Record<Field, number>>,
  field: Field,
  most: number,
): FieldProblem[] => {
  const [least, what] = field === 'fryPerBrood' ? [2, 'young'] : [1, 'generations'];
  const value = input[field];
  return value >= least && value <= most
    ? []
    : [{ field, message: `"${value}": give ${least} to ${most} ${what}.` }];
};

/** What is wrong with a share of a brood that has to pass. */
export const shareProblems = (share: number): FieldProblem[] =>
  share > 0 && share <= 1
    ? []
    : [{ field: 'share', message: `"${share}": give a share above 0, up to 1.` }];

@InputType({ description: 'To what end routes are searched, and within what.' })
export class RouteSearchInput {
  @Field(() => ID, { description: 'The line.' })
  lineId: string;

  @Field(() => Float, {
    description: 'Share of the young of a brood that have to pass what the line is for, 0 to 1.',
    defaultValue: 0.9,
  })
  share: number;

  @CountWith('Generations at most, 1 to 8.', 5)
  generations: number;

  @CountWith('Young of a brood raised to the age of sorting, 2 to 200.', 30)
  fryPerBrood: number;

  @Field(() => Boolean, {
    description: 'Look at crosses to fish of other lines, too.',
    defaultValue: true,
  })
  withOutcross: boolean;
}

@InputType({ description: 'How far a line is forecast, and how it is bred meanwhile.' })
export class LineForecastInput {
  @Field(() => ID, { description: 'The line.' })
  lineId: string;

  @CountWith('Generations, 1 to 10.', 8)
  generations: number;

  @CountWith('Young of a brood raised to the age of sorting, 2 to 100.', 20)
  fryPerBrood: number;
}
