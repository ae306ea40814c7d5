import { runVitest } from './vitest.mjs';

await runVitest(['run', ...process.argv.slice(2)]);
