import { defineConfig, type Plugin } from 'vite';

const decorates = (id: string): boolean => /node_modules\/(@nestjs|typeorm)\//.test(id);

/**
 * Nest asks the TypeORM on the disk for two classes that TypeORM 1 no longer has, and so each start would load it a second time beside the
 * one in the bundle.
 */
const oneTypeorm: Plugin = {
  name: 'one-typeorm',
  load: (id) =>
    /@nestjs\/typeorm\/dist\/common\/typeorm-compat\.js$/.test(id)
      ? 'export const [Connection, AbstractRepository] = [undefined, undefined];'
      : null,
};

/**
 * Apollo takes node's own hash only where modules are loaded by `require`; in a bundle it would reckon each question's SHA-256 in JavaScript,
 * some 3 % of what the server does.
 */
const nodesHash: Plugin = {
  name: 'nodes-hash',
  load: (id) =>
    /@apollo\/utils\.createhash\/dist\/index\.js$/.test(id)
      ? "export { createHash } from 'node:crypto';"
      : null,
};

/** The API as one server bundle; native modules and optional parts of Nest stay outside. */
export default defineConfig({
  plugins: [oneTypeorm, nodesHash],
  // What libraries ask for at each start and each step: theirs of development check much that tests have checked.
  define: { 'process.env.NODE_ENV': '"production"' },
  resolve: { conditions: ['linewright-source'] },
  ssr: {
    resolve: { conditions: ['linewright-source', 'module', 'node', 'development|production'] },
    noExternal: true,
    external: [
      '@node-rs/argon2',
      'sharp',
      // It finds its binary beside itself.
      'highs',
      'reflect-metadata',
      'typescript',
      'pg-native',
      '@nestjs/microservices',
      '@nestjs/websockets',
      'class-transformer',
      'class-validator',
      'ts-morph',
    ],
  },
  build: {
    ssr: true,
    outDir: 'dist',
    target: 'node20',
    sourcemap: true,
    rollupOptions: {
      input: {
        main: 'src/main.ts',
        import: 'src/commands/import.ts',
        export: 'src/commands/export.ts',
        password: 'src/commands/password.ts',
        backup: 'src/commands/backup.ts',
        restore: 'src/commands/restore.ts',
        'carrier-worker': 'src/carriers/worker.ts',
        'line-worker': 'src/line-health/line-worker.ts',
        'merit-worker': 'src/merit/merit-worker.ts',
        'ready-worker': 'src/merit/ready-worker.ts',
        'pair-worker': 'src/pairing/pair-worker.ts',
        'route-worker': 'src/line-routes/route-worker.ts',
        'outcross-worker': 'src/line-routes/outcross-worker.ts',
        'import-worker': 'src/import-and-export/import-worker.ts',
        'request-worker': 'src/request-worker.ts',
      },
      output: {
        format: 'es',
        // Decorators need it before any other module runs, whichever chunk comes first. A thread without them does without.
        banner: ({ moduleIds }) => (moduleIds.some(decorates) ? "import 'reflect-metadata';" : ''),
      },
    },
  },
});
