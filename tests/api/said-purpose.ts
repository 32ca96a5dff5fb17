import { type LinePurpose, STARTING_PURPOSE } from '@linewright/mating';

/** What a line is for as the API takes it: as it starts, and what is given. Traits and looks are in the API's own shape. */
export const saidOf = (
  given: Partial<Omit<LinePurpose, 'traits' | 'looks' | 'rules'>> & {
    readonly traits?: readonly object[];
    readonly looks?: readonly object[];
  } = {},
): object => {
  const { rules, ...start } = STARTING_PURPOSE;
  const { ages, rest, bodyLengthRatio } = rules;
  return {
    ...start,
    ...given,
    rules: { ages, maleRest: rest.male, femaleRest: rest.female, bodyLengthRatio },
  };
};
