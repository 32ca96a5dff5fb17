import { answerInThread } from '../jobs/thread.js';
import type { MeritTask } from './merit-task.js';
import { runMerit } from './run-merit.js';

// The thread in which a trait's breeding values are worked out for a large stock.
answerInThread<MeritTask>((task, { onProgress }) => runMerit(task, onProgress));
