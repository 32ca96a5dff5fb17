import { requestProgram } from '../jobs/request-programs.js';

export const crossProgram = requestProgram(
  'crossOf',
  async () => (await import('./cross-of.js')).crossOf,
);
