import path from 'node:path';
import { run } from './run.mjs';
import { SetupError, say } from './setup-error.mjs';
import { forgetInstalled, installKey, markInstalled } from './stamps.mjs';

// Without --include=dev, NODE_ENV=production would leave out the tools that build and test.
const NPM_CI = ['ci', '--include=dev', '--no-audit', '--no-fund'];

/** Puts the exact packages of package-lock.json into node_modules/. The stamp goes first and comes back last. */
export async function install(root, onStart) {
  const key = installKey(root);
  forgetInstalled(root);
  say('fetching its packages: once, from the network. Without one this gives up after a minute or two.');
  const code = await runNpm(root, onStart);
  if (code !== 0) {
    throw new SetupError(
      `the packages could not be fetched (npm's reasons are above, exit code ${code}). ` +
        'If there is no network here, connect and run this again; afterwards none is needed.',
    );
  }
  markInstalled(root, key);
}

async function runNpm(root, onStart) {
  const [command, ...before] = npmCommand();
  // npm must not read what was typed ahead, and our standard output is for the talk alone.
  const options = {
    cwd: root,
    stdio: ['ignore', 2, 2],
    shell: command === 'npm' && process.platform === 'win32',
  };
  try {
    return await run(command, [...before, ...NPM_CI], options, onStart);
  } catch (error) {
    if (error.code !== 'ENOENT') throw error;
    throw new SetupError('npm was not found. It comes with Node.js: install Node.js 20 and run this again.');
  }
}

// Started by npm, use that same npm: it may not be on the PATH, and on Windows `npm` is a shell script.
function npmCommand() {
  const script = process.env.npm_execpath ?? '';
  return /^npm-cli\.c?js$/.test(path.basename(script)) ? [process.execPath, script] : ['npm'];
}
