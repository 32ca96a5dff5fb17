import { Inject, type Type } from '@nestjs/common';
import { Context, Parent, ResolveField, Resolver } from '@nestjs/graphql';
import type { EntityTarget, ObjectLiteral } from 'typeorm';
import { RightsLoader } from '../stock/rights.loader.js';

interface Shown {
  readonly id: string;
}

/** Tells of each record of a kind whether whoever asks may change it: a resolver for the module that answers with it. */
export const changeOf = (
  model: Type<Shown>,
  target: EntityTarget<ObjectLiteral>,
): Type<unknown> => {
  @Resolver(() => model)
  class ChangeResolver {
    constructor(@Inject(RightsLoader) private readonly rights: RightsLoader) {}

    @ResolveField(() => Boolean, {
      description: 'True where whoever asks may correct and withdraw it.',
    })
    mayChange(@Parent() { id }: Shown, @Context() context: object): Promise<boolean> {
      return this.rights.ofRows(target).of(context).load(id);
    }
  }
  return ChangeResolver;
};
