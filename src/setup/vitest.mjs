import path from 'node:path';
import { ROOT, ready } from './ready.mjs';
import { run } from './run.mjs';
import { orExplain } from './setup-error.mjs';

/** Runs vitest over tests/ in this terminal, with the program built first, and ends with vitest's exit code. */
export async function runVitest(args, settings = 'vitest.config.ts') {
  process.exitCode = await orExplain(async () => {
    await ready(ROOT, { packages: true });
    const script = path.join(ROOT, 'node_modules', 'vitest', 'vitest.mjs');
    const config = ['--config', path.join('tests', settings)];
    // NODE_ENV=production would give the tests the other React.
    const env = { ...process.env, NODE_ENV: 'test' };
    return run(process.execPath, [script, ...args, ...config], { cwd: ROOT, stdio: 'inherit', env });
  });
}
