import { run } from './kinship.bench.js';
await run((l) => console.log(JSON.stringify(l)));
