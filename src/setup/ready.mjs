import { existsSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { SetupError } from './setup-error.mjs';
import { isBuilt, isInstalled } from './stamps.mjs';

export const ROOT = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '..', '..');

/**
 * Makes the tree at `root` ready: installs and builds what is out of date, and nothing else.
 * The program in dist/ carries all it needs, so with a fresh build node_modules/ is not even looked at: a changed
 * or damaged one must not send somebody beside a tank, without a network, into a download.
 * @param needs  packages: node_modules/ is wanted for itself (tests, checks);  program: dist/ is wanted;
 *               rebuild: build even if dist/ is up to date
 */
export async function ready(root, { packages = false, program = true, rebuild = false } = {}) {
  refuseOldNode(process.versions.node);
  refusePartialTree(root);
  const mustBuild = () => program && (rebuild || !isBuilt(root));
  const mustInstall = () => (packages || mustBuild()) && !isInstalled(root);
  if (!mustInstall() && !mustBuild()) return;

  // Loaded only now: a warm start needs none of it.
  const [{ withLock }, { install }, { build }] = await Promise.all([
    import('./lock.mjs'),
    import('./install.mjs'),
    import('./build-child.mjs'),
  ]);
  // In dist/, because npm empties node_modules/ while it works.
  await withLock(path.join(root, 'dist', '.lock'), async (alsoWaitFor) => {
    if (mustInstall()) await install(root, alsoWaitFor);
    if (mustBuild()) await build(root, alsoWaitFor);
  });
}

/** The bundler needs 20.19 in the 20 line and 22.12 in the 22 line; odd lines are not maintained. */
export function refuseOldNode(version) {
  const [major = 0, minor = 0] = version.split('.').map(Number);
  if ((major === 20 && minor >= 19) || (major === 22 && minor >= 12) || major > 22) return;
  throw new SetupError(
    `Node.js 20.19 or newer is needed (22.12 or newer of Node.js 22); this is ${version}.`,
  );
}

function refusePartialTree(root) {
  for (const name of ['package.json', 'package-lock.json', 'tsconfig.json']) {
    if (existsSync(path.join(root, name))) continue;
    throw new SetupError(`${name} is missing from ${root}; this copy is not whole, fetch Batchside again.`);
  }
}
