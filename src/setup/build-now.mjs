// Builds, with node_modules/ in order and the lock held by whoever started us: a process of its own, so that the
// bundler takes no memory from the talk and nothing but the talk writes to standard output.
import { buildAll } from './bundle.mjs';
import { buildKey, markBuilt } from './stamps.mjs';

const root = process.argv[2] ?? process.cwd();
try {
  const key = buildKey(root);
  markBuilt(root, key, await buildAll(root));
} catch (error) {
  process.stderr.write(`${error instanceof Error ? error.message : String(error)}\n`);
  process.exitCode = 1;
}
