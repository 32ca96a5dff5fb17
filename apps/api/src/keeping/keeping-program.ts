import { requestProgram } from '../jobs/request-programs.js';

export const keepingProgram = requestProgram(
  'whomToKeep',
  async () => (await import('./keeping-task.js')).runKeepingTask,
);
