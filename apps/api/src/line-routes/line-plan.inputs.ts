import { Field, ID, InputType, Int } from '@nestjs/graphql';
import { DateScalar } from '../graphql/date.scalar.js';
import { IdSentOnce } from '../graphql/sent.js';
import { RouteSearchInput } from './line-routes.inputs.js';

@InputType({ description: 'A route that is adopted as the plan of its line.' })
export class AdoptRouteInput {
  @IdSentOnce()
  id?: string | null;

  @Field(() => RouteSearchInput, { description: 'The search that found it.' })
  search: RouteSearchInput;

  @Field(() => String, { description: 'The key that it has there.' })
  key: string;

  @Field(() => Int, {
    description: 'Version of what the line is for that it was searched for; 0 when none was said.',
  })
  expectedPurposeVersion: number;

  @Field(() => DateScalar, { description: 'Day from which the plan holds.' })
  adoptedOn: string;

  @Field(() => String, { nullable: true, description: 'Anything else.' })
  note?: string | null;
}

@InputType({ description: 'Which spawn is a brood of a plan.' })
export class SpawnOfPlanInput {
  @Field(() => ID, { description: 'The plan.' })
  id: string;

  @Field(() => Int, { description: 'Revision of the plan that was looked at.' })
  revision: number;

  @Field(() => Int, { description: 'Place of the brood in the plan, from 0.' })
  brood: number;

  @Field(() => ID, { nullable: true, description: 'The spawn; null: none so far is.' })
  spawnId: string | null;

  @Field(() => Boolean, {
    nullable: true,
    defaultValue: false,
    description: 'Leaves it to parents and time again; the spawn is not looked at then.',
  })
  byParents?: boolean | null;
}
