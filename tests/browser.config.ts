import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

// Pages in a real browser: `npm run browser`. One at a time: each starts a Chromium of its own.
export default defineConfig({
  root: fileURLToPath(new URL('..', import.meta.url)),
  test: { include: ['tests/browser/**/*.browser.test.ts'], pool: 'forks', fileParallelism: false },
});
