import { answerInThread } from '../jobs/thread.js';
import { PreparedModels } from './prepared-models.js';
import { runTask } from './task.js';
import type { AskedOfThread } from './carrier-task.js';

/** Loci; a model of ten thousand fish takes some 25 MB. */
const MOST_PREPARED = 6;
const prepared = new PreparedModels(MOST_PREPARED);

// The thread in which carrier probabilities are worked out, one task after another.
answerInThread<AskedOfThread>((task, { onProgress }) => {
  let highest = 0;
  return runTask(task, prepared, (done, total) => {
    // Building and reading out each count from nothing: the share never goes back.
    highest = Math.max(highest, total > 0 ? done / total : 0);
    onProgress(highest);
  });
});
