import { requestProgram } from '../jobs/request-programs.js';

export const proposalProgram = requestProgram(
  'pairProposal',
  async () => (await import('./propose.js')).propose,
);
