import { answerInThread } from '../jobs/thread.js';
import { type LineTask, runLineTask } from './line-task.js';

// The thread in which the figures of a large line are worked out.
answerInThread<LineTask>((task, { onProgress }) => runLineTask(task, onProgress));
