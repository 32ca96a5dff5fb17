import { requestProgram } from '../jobs/request-programs.js';

export const meritProgram = requestProgram('traitMerit', () =>
  import('./run-merit.js').then(
    ({ runMerit }) =>
      (task: Parameters<typeof runMerit>[0]) =>
        runMerit(task),
  ),
);
