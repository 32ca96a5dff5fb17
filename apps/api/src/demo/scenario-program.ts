import { demoScenario } from '@linewright/seed';
import { requestProgram } from '../jobs/request-programs.js';

export const scenarioProgram = requestProgram('demoScenario', demoScenario);
