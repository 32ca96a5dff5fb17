import { requestProgram } from '../jobs/request-programs.js';

export const readingProgram = requestProgram(
  'readShareFile',
  async () => (await import('./share-file.js')).readShareFile,
);

export const pageProgram = requestProgram(
  'linePage',
  async () => (await import('./line-page/line-page.js')).linePage,
);
