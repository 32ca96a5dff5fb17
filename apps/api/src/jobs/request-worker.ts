import { answerInThread } from './thread.js';
import { runProgram } from '../schema/programs.js';

// The thread in which one request's longest part is worked out.
answerInThread(runProgram);
