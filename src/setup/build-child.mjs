import { existsSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { run } from './run.mjs';
import { SetupError, say } from './setup-error.mjs';

const SCRIPT = fileURLToPath(new URL('./build-now.mjs', import.meta.url));

export async function build(root, onStart) {
  say('putting the program together ...');
  const options = { cwd: root, stdio: ['ignore', 2, 2] };
  const code = await run(process.execPath, [SCRIPT, root], options, onStart);
  if (code === 0) return;
  const older = existsSync(path.join(root, 'dist', 'main.js'))
    ? ' The program built before is still there: node dist/main.js'
    : '';
  throw new SetupError(`the program could not be put together; the reasons are above.${older}`);
}
