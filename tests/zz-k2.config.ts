import { fileURLToPath } from 'node:url';
export default { root: fileURLToPath(new URL('..', import.meta.url)), resolve: { conditions: ['linewright-source'] }, ssr: { resolve: { conditions: ['linewright-source'] } }, test: { include: ['tests/bench/zz-k2-run.test.ts'] } };
