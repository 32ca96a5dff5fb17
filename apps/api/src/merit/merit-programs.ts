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
export const beliefProgram = requestProgram(
  'traitBelief',
  async () => (await import('./trait-belief.js')).beliefOf,
);
