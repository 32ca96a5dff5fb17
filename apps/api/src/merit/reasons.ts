import { type Reason, reasonsFor, writtenModel } from '@linewright/merit';
import type { SharesAnswer } from './merit-answer.js';
import type { MeritTask } from './merit-task.js';
import { solvedAtShares } from './linear-model.js';
import { scoresOfTask } from './scores-of-task.js';

/** Which relatives' scores count for how much, at the mean shares. */
export const reasonsOf = (task: MeritTask, shares: SharesAnswer, fish: number): Reason[] =>
  reasonsFor(solvedAtShares(writtenModel(scoresOfTask(task)), shares), fish);
