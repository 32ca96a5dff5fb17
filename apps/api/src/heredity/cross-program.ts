import { requestProgram } from '../jobs/request-programs.js';
import { crossOf } from './cross-of.js';

export const crossProgram = requestProgram('crossOf', crossOf);
