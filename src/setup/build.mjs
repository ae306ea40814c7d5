import { ROOT, ready } from './ready.mjs';
import { orExplain } from './setup-error.mjs';

await orExplain(() => ready(ROOT, { rebuild: true }));
