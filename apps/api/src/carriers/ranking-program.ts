import { rankTestMatings } from '@linewright/heredity';
import { requestProgram } from '../jobs/request-programs.js';

export const ranking = requestProgram('rankTestMatings', rankTestMatings);
