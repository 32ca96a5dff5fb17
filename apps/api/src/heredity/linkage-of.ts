import { linkage, linkageBySex, type LinkageBrood, lodScore } from '@linewright/merit';

/** Morton's line against linkage. */
const AGAINST = -2;
const STEPS = 50;

/** The largest share of recombinants of which all smaller ones are ruled out, in steps of 0.01. */
const notCloserThan = (broods: readonly LinkageBrood[]): number => {
  for (let k = 0; k <= STEPS; k++)
    if (lodScore(broods, (0.5 * k) / STEPS) > AGAINST) return (0.5 * Math.max(0, k - 1)) / STEPS;
  return 0.5;
};

export const linkageOf = (broods: readonly LinkageBrood[]) => ({
  all: linkage(broods),
  bySex: linkageBySex(broods),
  notCloserThan: notCloserThan(broods),
});
