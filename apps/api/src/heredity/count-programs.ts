import { requestProgram } from '../jobs/request-programs.js';

export const fitProgram = requestProgram(
  'goodnessOfFit',
  async () => (await import('@linewright/heredity')).goodnessOfFit,
);
export const broodSizeProgram = requestProgram(
  'broodSizeFor',
  async () => (await import('@linewright/heredity')).broodSizeFor,
);
