import { defineConfig } from 'vite';

export default defineConfig({
  resolve: { conditions: ['linewright-source'] },
  ssr: {
    noExternal: true,
    external: ['highs', 'oxfmt'],
    resolve: { conditions: ['linewright-source', 'module', 'node', 'development|production'] },
  },
  build: {
    ssr: 'tests/strategies/run.ts',
    outDir: 'tests/strategies/dist',
    emptyOutDir: true,
    target: 'node20',
  },
});
