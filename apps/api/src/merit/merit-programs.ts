import { requestProgram } from '../jobs/request-programs.js';

export const meritProgram = requestProgram(
  'traitMerit',
  async () => (await import('./run-merit.js')).answerOf,
);
export const reasonsProgram = requestProgram(
  'meritReasons',
  async () => (await import('./reasons.js')).reasonsOf,
);
export const loadProgram = requestProgram(
  'inbreedingLoad',
  async () => (await import('./line-load.js')).loadsOf,
);
export const broodSizesProgram = requestProgram(
  'broodSizes',
  async () => (await import('./measure-load.js')).allSizesOfBroods,
);
export const fishSizesProgram = requestProgram(
  'fishSizes',
  async () => (await import('./measure-load.js')).sizesOfFish,
);
export const beliefsProgram = requestProgram(
  'traitBeliefs',
  async () => (await import('./trait-belief.js')).beliefsOf,
);
export const togetherProgram = requestProgram(
  'traitsTogether',
  async () => (await import('./run-together.js')).togetherOf,
);
