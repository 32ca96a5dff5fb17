import { requestProgram } from '../jobs/request-programs.js';

export const clubProgram = requestProgram(
  'clubLines',
  async () => (await import('./club-task.js')).clubAnswerOf,
);
