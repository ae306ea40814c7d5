import path from 'node:path';
import { ROOT, ready } from './ready.mjs';
import { run } from './run.mjs';
import { orExplain, say } from './setup-error.mjs';

const TSC = path.join('typescript', 'bin', 'tsc');
const BIOME = path.join('@biomejs', 'biome', 'bin', 'biome');
const CHECKS = [
  { name: 'types', script: TSC, args: ['-p', 'tsconfig.json'] },
  { name: 'types of the set-up scripts', script: TSC, args: ['-p', 'src/setup/tsconfig.json'] },
  { name: 'lint and format', script: BIOME, args: ['ci', '--error-on-warnings'] },
];

await orExplain(async () => {
  await ready(ROOT, { packages: true, program: false });
  const failed = [];
  for (const { name, script, args } of CHECKS) {
    const tool = path.join(ROOT, 'node_modules', script);
    const code = await run(process.execPath, [tool, ...args], { cwd: ROOT, stdio: 'inherit' });
    if (code !== 0) failed.push(name);
  }
  say(failed.length === 0 ? 'all checks passed.' : `these checks failed: ${failed.join(', ')}.`);
  process.exitCode = failed.length === 0 ? 0 : 1;
});
