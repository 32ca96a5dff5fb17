import { answerInThread } from '../jobs/thread.js';
import { runPairTask } from './pair-task.js';

// The thread in which the pairs of a large stock are judged.
answerInThread(runPairTask);
