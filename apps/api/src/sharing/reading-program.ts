import { requestProgram } from '../jobs/request-programs.js';

export const readingProgram = requestProgram(
  'readShareFile',
  async () => (await import('./share-file.js')).readShareFile,
);

export const sealingProgram = requestProgram(
  'sealFor',
  async () => (await import('./exchange/sealing.js')).sealFor,
);

export const openingProgram = requestProgram(
  'openSealed',
  async () => (await import('./exchange/sealing.js')).openSealed,
);

export const pageProgram = requestProgram(
  'linePage',
  async () => (await import('./line-page/line-page.js')).linePage,
);
