import { broodSizeFor, goodnessOfFit } from '@linewright/heredity';
import { requestProgram } from '../jobs/request-programs.js';

export const fitProgram = requestProgram('goodnessOfFit', goodnessOfFit);
export const broodSizeProgram = requestProgram('broodSizeFor', broodSizeFor);
