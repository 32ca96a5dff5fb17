import { requestProgram } from '../jobs/request-programs.js';

export const firstRoutesProgram = requestProgram(
  'firstRoutes',
  async () => (await import('./route-task.js')).firstRoutes,
);
