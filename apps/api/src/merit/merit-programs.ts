import { requestProgram } from '../jobs/request-programs.js';
import type { MeritTask } from './merit-task.js';
import { runMerit } from './run-merit.js';

export const meritProgram = requestProgram('traitMerit', (task: MeritTask) => runMerit(task));
