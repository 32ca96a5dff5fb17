import { requestProgram } from '../jobs/request-programs.js';
import { readShareFile } from './share-file.js';

export const readingProgram = requestProgram('readShareFile', readShareFile);
