import { runVitest } from './vitest.mjs';

await runVitest(['bench', '--run', ...process.argv.slice(2)]);
