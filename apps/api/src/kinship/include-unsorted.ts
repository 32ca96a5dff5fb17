import { Args } from '@nestjs/graphql';

/** Whether figures about fish in use count those not decided on yet. */
export const IncludeUnsorted = (): ParameterDecorator =>
  Args('includeUnsorted', {
    type: () => Boolean,
    defaultValue: false,
    description: 'Count fish not decided on yet as in use, beside keepers and those on hold.',
  });
