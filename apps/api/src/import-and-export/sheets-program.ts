import { requestProgram } from '../jobs/request-programs.js';

export const sheetsProgram = requestProgram(
  'readSheets',
  async () => (await import('./read-sheets.js')).readSheets,
);
