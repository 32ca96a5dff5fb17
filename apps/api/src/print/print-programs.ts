import { requestProgram } from '../jobs/request-programs.js';

export const cardsProgram = requestProgram('cards', async () => (await import('./cards.js')).cards);
export const jarLabelsProgram = requestProgram(
  'jarLabels',
  async () => (await import('./jar-label.js')).jarLabels,
);
