import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

const root = fileURLToPath(new URL('..', import.meta.url));
const manifest = JSON.parse(readFileSync(`${root}package.json`, 'utf8')) as { version: string };

export default defineConfig({
  root,
  define: { __VERSION__: JSON.stringify(manifest.version) },
  test: {
    include: ['tests/**/*.test.{ts,tsx}'],
    exclude: ['tests/browser/**'],
    benchmark: { include: ['tests/bench/**/*.bench.ts'] },
    pool: 'forks',
    // Loading the libraries and the rules anew for every file would take a third of the whole run.
    isolate: false,
    // By default one core is kept for the watcher, which on two cores doubles the time.
    maxWorkers: '100%',
  },
});
