import { answerInThread } from '../jobs/thread.js';
import { type PairTask, runPairTask } from './pair-task.js';

// The thread in which the pairs of a large stock are judged.
answerInThread<PairTask>((task, { onProgress }) => runPairTask(task, onProgress));
