import { type LinePurpose, STARTING_PURPOSE } from '@linewright/mating';

/** What a line is for as the API takes it: as it starts, and what is given. Traits and looks are in the API's own shape. */
export const saidOf = ({
  rules = STARTING_PURPOSE.rules,
  ...given
}: Partial<Omit<LinePurpose, 'traits' | 'looks'>> & {
  readonly traits?: readonly object[];
  readonly looks?: readonly object[];
} = {}): object => {
  const { ages, rest, ...others } = rules;
  return {
    ...STARTING_PURPOSE,
    ...given,
    rules: { ages, maleRest: rest.male, femaleRest: rest.female, ...others },
  };
};
