import { answerInThread } from '../jobs/thread.js';
import { type OutcrossTask, runOutcrossTask } from './outcross-task.js';

// The thread in which outcrosses are simulated.
answerInThread<OutcrossTask>((task, work) => runOutcrossTask(task, work));
