export { type DemoOptions, demoScenario } from './demo-scenario.js';
export type * from './scenario.js';
