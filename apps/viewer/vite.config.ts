import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';

const api = process.env['LINEWRIGHT_API'] ?? 'http://127.0.0.1:4700';

export default defineConfig({
  plugins: [react()],
  resolve: { conditions: ['linewright-source', 'module', 'browser', 'development|production'] },
  build: { outDir: 'dist', emptyOutDir: true, sourcemap: false, chunkSizeWarningLimit: 700 },
  server: { proxy: { '/graphql': api, '/export': api, '/healthz': api, '/calendar': api } },
});
