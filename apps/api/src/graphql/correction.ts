import type { Type } from '@nestjs/common';
import {
  Field,
  ID,
  InputType,
  Int,
  IntersectionType,
  OmitType,
  PartialType,
} from '@nestjs/graphql';

export interface Revised {
  id: string;
  revision: number;
}

/** Which record a form is for, and the revision that was before its writer's eyes. */
export const revisionOf = (what: string): Type<Revised> => {
  @InputType({ isAbstract: true })
  class RevisedInput {
    @Field(() => ID, { description: `Id of the ${what}.` })
    id: string;

    @Field(() => Int, { description: 'Revision the form was opened at.' })
    revision: number;
  }
  return RevisedInput;
};

/** Absent stays, null clears. */
export type Corrected<Created, Fixed> = {
  [Field in Exclude<keyof Created, Fixed | 'id'>]?: Created[Field] | null;
};

/**
 * GraphQL's shape of a correction, to be extended by a class of its own: what was given when the record was made, each field
 * with its description and none of them needed, and which record it is for.
 *
 * @param fixed what cannot be corrected, or not in this way; the id is never corrected.
 */
export const correctionOf = <Created extends { id?: unknown }, Fixed extends keyof Created = never>(
  creation: Type<Created>,
  what: string,
  fixed: readonly Fixed[] = [],
): Type<Corrected<Created, Fixed> & Revised> =>
  IntersectionType(
    PartialType(OmitType(creation, ['id', ...fixed] as const)),
    revisionOf(what),
  ) as Type<Corrected<Created, Fixed> & Revised>;
