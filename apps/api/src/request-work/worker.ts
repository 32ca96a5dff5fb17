import { answerInThread } from '../jobs/thread.js';
import { runProgram } from './programs.js';

// The thread in which one request's longest part is worked out.
answerInThread(runProgram);
