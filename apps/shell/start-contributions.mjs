import { buildAndRun } from './build-first.mjs';

await buildAndRun('contributions');
