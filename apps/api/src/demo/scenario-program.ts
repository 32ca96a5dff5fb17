import { requestProgram } from '../jobs/request-programs.js';

export const scenarioProgram = requestProgram(
  'demoScenario',
  async () => (await import('@linewright/seed')).demoScenario,
);
