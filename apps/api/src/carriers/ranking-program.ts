import { requestProgram } from '../jobs/request-programs.js';

export const ranking = requestProgram(
  'rankTestMatings',
  async () => (await import('@linewright/heredity')).rankTestMatings,
);
