import './carriers/ranking-program.js';
import './club/club-program.js';
import './demo/scenario-program.js';
import './heredity/count-programs.js';
import './import-and-export/sheets-program.js';
import './heredity/cross-program.js';
import './heredity/inheritance-programs.js';
import './keeping/keeping-program.js';
import './merit/merit-programs.js';
import './print/print-programs.js';
import './rounds/proposal-programs.js';
import './line-routes/forecast-program.js';
import './line-routes/route-program.js';
import './sharing/reading-program.js';
import { runProgram } from './jobs/request-programs.js';
import { answerInThread } from './jobs/thread.js';

// The thread in which one request's longest part is worked out: it knows the programs of every feature, and loads the one asked for.
answerInThread(runProgram);
