import { Field, Float, Int } from '@nestjs/graphql';

/** Fields of models that are nothing but figures, with their descriptions. */
export const Figure = (description: string): PropertyDecorator =>
  Field(() => Float, { description });
export const FigureOrNone = (description: string): PropertyDecorator =>
  Field(() => Float, { nullable: true, description });
export const Count = (description: string): PropertyDecorator => Field(() => Int, { description });
export const CountOrNone = (description: string): PropertyDecorator =>
  Field(() => Int, { nullable: true, description });
