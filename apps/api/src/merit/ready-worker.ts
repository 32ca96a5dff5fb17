import { answerInThread } from '../jobs/thread.js';
import { type AskedOfReady, ReadySolutions } from './ready-solutions.js';

const ready = new ReadySolutions();

// The thread that keeps solutions ready, so that a score more is answered from the last one.
answerInThread<AskedOfReady>((asked) => ready.moved(asked));
