import { Field, ID, InputType, Int, registerEnumType } from '@nestjs/graphql';
import { SenderId } from '../graphql/sent.js';

export const HeritabilityPrior = { FISH_SIZE: 'fish_size', FLAT: 'flat' } as const;
export type HeritabilityPrior = (typeof HeritabilityPrior)[keyof typeof HeritabilityPrior];
registerEnumType(HeritabilityPrior, {
  name: 'HeritabilityPrior',
  description: 'What is taken as likely of a heritability before a score is looked at.',
  valuesMap: {
    FISH_SIZE: { description: 'Around the published figures for the size of fish.' },
    FLAT: { description: 'Every heritability is equally likely.' },
  },
});

const Part = (description: string): PropertyDecorator =>
  Field(() => Boolean, { nullable: true, description: `${description} Absent: as it is.` });

@InputType({ description: 'With what a trait’s breeding values are worked out.' })
export class SetTraitModelInput {
  @Field(() => ID, { description: 'The trait.' })
  traitId: string;

  @Field(() => Int, {
    description: 'Revision of the settings the form was opened at; 0 for the usual ones.',
  })
  revision: number;

  @Part('Correct for the quarter of the year in which a fish was looked at.')
  season?: boolean | null;

  @Part('Correct for the age of the fish at the look.')
  age?: boolean | null;

  @Part('Correct for the sex.')
  sex?: boolean | null;

  @Part('Let founders of different lines have different means.')
  linesApart?: boolean | null;

  @Part('Set apart what a brood shares and does not inherit.')
  brood?: boolean | null;

  @Part('Set apart what fish share that swim with the same person.')
  place?: boolean | null;

  @Part('Set apart what stays with a fish from look to look and is not inherited.')
  looks?: boolean | null;

  @Part('Set apart how the people who scored differ.')
  scorer?: boolean | null;

  @Field(() => [ID], {
    nullable: true,
    description:
      'Own traits whose scores of the same fish are corrected for, at most five: yes/no and ordered ones by level, others as a number. Absent: as it is.',
  })
  besideTraitIds?: string[] | null;

  @Field(() => HeritabilityPrior, {
    nullable: true,
    description: 'What is taken as likely of the heritability. Absent: as it is.',
  })
  prior?: HeritabilityPrior | null;
}

@InputType({ description: 'Goes back to the usual settings of a trait.' })
export class ResetTraitModelInput {
  @Field(() => ID, { description: 'The trait.' })
  traitId: string;

  @Field(() => Int, { description: 'Revision of the settings the form was opened at.' })
  revision: number;
}

@InputType({ description: 'Lets chance choose fish of a brood to be scored before it is sorted.' })
export class DrawForScoringInput {
  @SenderId('sending it twice draws once')
  id?: string | null;

  @Field(() => ID, { description: 'The brood.' })
  spawnId: string;

  @Field(() => Int, { nullable: true, description: 'How many; a dozen when absent.' })
  number?: number | null;

  @Field(() => Boolean, {
    nullable: true,
    description:
      'Draws more of a brood of which a draw stands already. Without it that draw is the answer, so that no second press and no second device draws another.',
  })
  further?: boolean | null;
}
