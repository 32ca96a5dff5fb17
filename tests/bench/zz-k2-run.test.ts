import { it } from 'vitest';
import { run } from './population.bench.js';
it('runs', async () => { await run((l) => console.log(JSON.stringify(l))); }, 120000);
