import { Field, Float, ID, ObjectType, registerEnumType } from '@nestjs/graphql';
import { connectionOf } from '../graphql/connection.js';

export const ComputationState = {
  QUEUED: 'queued',
  RUNNING: 'running',
  DONE: 'done',
  FAILED: 'failed',
  CANCELLED: 'cancelled',
  OUTDATED: 'outdated',
} as const;
export type ComputationState = (typeof ComputationState)[keyof typeof ComputationState];
registerEnumType(ComputationState, {
  name: 'ComputationState',
  description: 'Where a long computation stands.',
  valuesMap: {
    QUEUED: { description: 'Waiting for a process to take it up.' },
    RUNNING: { description: 'Being worked out.' },
    DONE: { description: 'Its answer is stored.' },
    FAILED: { description: 'It ended with an error.' },
    CANCELLED: { description: 'It was stopped.' },
    OUTDATED: { description: 'Records changed before it was begun.' },
  },
});

@ObjectType('Computation', {
  description: 'A long computation: any process can tell how far it is and stop it.',
})
export class ComputationModel {
  @Field(() => ID, { description: 'UUID.' })
  id: string;

  @Field(() => String, { description: 'What is worked out.' })
  kind: string;

  @Field(() => String, { description: 'What it is about, such as a locus.' })
  subject: string;

  @Field(() => ComputationState, { description: 'Where it stands.' })
  state: ComputationState;

  @Field(() => Float, { description: 'How far it is, 0 to 1.' })
  progress: number;

  @Field(() => String, { description: 'Who asked for it.' })
  askedBy: string;

  @Field(() => Date, { description: 'When it was asked for.' })
  createdAt: Date;

  @Field(() => Date, { nullable: true, description: 'When it was begun.' })
  startedAt: Date | null;

  @Field(() => Date, { nullable: true, description: 'When it ended.' })
  endedAt: Date | null;

  @Field(() => String, { nullable: true, description: 'Code of the error it ended with.' })
  errorCode: string | null;

  @Field(() => String, { nullable: true, description: 'The error in words.' })
  errorMessage: string | null;
}

@ObjectType('ComputationConnection', { description: 'One page of the long computations.' })
export class ComputationConnectionModel extends connectionOf(
  ComputationModel,
  'Computation',
  'long computations',
) {}
