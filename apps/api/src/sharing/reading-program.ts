import { requestProgram } from '../jobs/request-programs.js';

export const readingProgram = requestProgram(
  'readShareFile',
  async () => (await import('./share-file.js')).readShareFile,
);
