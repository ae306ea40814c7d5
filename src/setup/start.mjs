import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { ROOT, ready } from './ready.mjs';
import { orExplain } from './setup-error.mjs';

await orExplain(() => ready(ROOT));

// The program sees the same arguments as with `node dist/main.js`, and its own faults keep their stack.
const main = path.join(ROOT, 'dist', 'main.js');
process.argv[1] = main;
await import(pathToFileURL(main).href);
