import { answerInThread } from '../jobs/thread.js';
import type { MeritTask } from './merit-task.js';
import { runMerit } from './run-merit.js';
import { runTogether } from './run-together.js';
import type { TogetherTask } from './together-task.js';

// The thread in which breeding values, of one trait or of two together, are worked out for a large stock.
answerInThread<MeritTask | TogetherTask>((task, { onProgress }) =>
  'second' in task ? runTogether(task, onProgress) : runMerit(task, onProgress),
);
