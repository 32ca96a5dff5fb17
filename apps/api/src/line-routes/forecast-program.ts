import { requestProgram } from '../jobs/request-programs.js';

export const forecastProgram = requestProgram(
  'lineForecast',
  async () => (await import('./forecast-task.js')).forecastOf,
);
