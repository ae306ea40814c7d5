import { runVitest } from './vitest.mjs';

// Apart from the other tests: these need the Chromium that Debian installs.
await runVitest(['run', ...process.argv.slice(2)], 'browser.config.ts');
