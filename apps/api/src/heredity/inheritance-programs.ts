import { requestProgram } from '../jobs/request-programs.js';

export const weighProgram = requestProgram(
  'weighLooks',
  async () => (await import('./weigh-looks.js')).weighLooks,
);
export const linkageProgram = requestProgram(
  'linkageOf',
  async () => (await import('./linkage-of.js')).linkageOf,
);
