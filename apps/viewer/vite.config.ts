import { basename } from 'node:path';
import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';
import { compression } from 'vite-plugin-compression2';
import { VitePWA } from 'vite-plugin-pwa';

const api = process.env['LINEWRIGHT_API'] ?? 'http://127.0.0.1:4700';

/** The pages, kept on the device; never the records: `/graphql` always goes to the server. */
const pagesOnTheDevice = VitePWA({
  registerType: 'prompt',
  injectRegister: null,
  includeAssets: ['mark.svg'],
  manifest: {
    name: 'Linewright',
    short_name: 'Linewright',
    description: 'Records, kinship and heredity for people who line-breed ornamental fish',
    start_url: '/',
    display: 'standalone',
    background_color: '#fbfdfc',
    theme_color: '#0a5c57',
    icons: [
      { src: '/mark-192.png', sizes: '192x192', type: 'image/png' },
      { src: '/mark-512.png', sizes: '512x512', type: 'image/png' },
      { src: '/mark.svg', sizes: 'any', type: 'image/svg+xml' },
    ],
  },
  workbox: {
    globPatterns: ['**/*.{js,css,html,svg,woff2}'],
    maximumFileSizeToCacheInBytes: 4_000_000,
    // Every screen opens, if only to say that the server does not answer; what the API serves is asked of the server.
    navigateFallback: '/index.html',
    navigateFallbackDenylist: [
      /^\/(graphql|export|healthz|calendar|photos)(\/|$)/,
      /\.[a-z0-9]+$/i,
    ],
    cleanupOutdatedCaches: true,
  },
});

/** Files as the server hands them out to whoever takes them so, compressed once and not at each request. */
const smallerFiles = compression({
  include: /\.(js|css|html|svg|webmanifest)$/,
  threshold: 1024,
  algorithms: ['gzip', 'brotliCompress'],
});

/** A class is named after the sheet it stands in, which stands beside its component: `today_task` of `today.module.css`. */
const classOf = (name: string, file: string): string => `${basename(file, '.module.css')}_${name}`;

export default defineConfig({
  plugins: [react(), pagesOnTheDevice, smallerFiles],
  resolve: { conditions: ['linewright-source', 'module', 'browser', 'development|production'] },
  css: { modules: { generateScopedName: classOf } },
  build: { outDir: 'dist', emptyOutDir: true, sourcemap: false, chunkSizeWarningLimit: 700 },
  server: {
    // Whole names: `/export-and-backup` is a screen.
    proxy: { '^/(graphql|export|healthz|calendar|photos)([/?]|$)': api },
  },
});
