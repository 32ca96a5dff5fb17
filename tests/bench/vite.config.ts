import { defineConfig } from 'vite';

export default defineConfig({
  resolve: { conditions: ['linewright-source'] },
  ssr: {
    noExternal: true,
    external: ['pg-native', 'highs', 'playwright-core', '@sparticuz/chromium', 'autocannon'],
    resolve: { conditions: ['linewright-source', 'module', 'node', 'development|production'] },
  },
  build: {
    ssr: 'tests/bench/run-all.ts',
    outDir: 'tests/bench/dist',
    emptyOutDir: true,
    target: 'node20',
  },
});
