import { type ChildProcess, spawn } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { onTestFinished } from 'vitest';

const REAL = fileURLToPath(new URL('../..', import.meta.url));

/** A tree of our own shape with a tiny program, in a folder that goes away with the test. */
export function smallTree(files: Record<string, string> = {}): string {
  const root = mkdtempSync(path.join(tmpdir(), 'batchside-setup-'));
  onTestFinished(() => rmSync(root, { recursive: true, force: true, maxRetries: 3 }));
  const manifest = { name: 'small', version: '1.2.3', type: 'module', dependencies: { ink: '6.8.0' } };
  put(root, 'package.json', JSON.stringify(manifest));
  put(root, 'package-lock.json', '{ "lockfileVersion": 3 }\n');
  put(root, 'src/main.ts', "console.log('hello', __VERSION__, ...process.argv.slice(2));\n");
  put(root, 'rules/one.yaml', 'id: one\n');
  cpSync(path.join(REAL, 'tsconfig.json'), path.join(root, 'tsconfig.json'));
  for (const [file, text] of Object.entries(files)) put(root, file, text);
  return root;
}

/** The same with the set-up scripts in it, so that it can be started for real. */
export function startableTree(files: Record<string, string> = {}): string {
  const root = smallTree(files);
  cpSync(path.join(REAL, 'src/setup'), path.join(root, 'src/setup'), { recursive: true });
  put(root, '.tools/npm-cli.js', FAKE_NPM);
  put(root, '.tools/package.json', '{ "type": "commonjs" }');
  return root;
}

export function put(root: string, file: string, text: string): void {
  mkdirSync(path.dirname(path.join(root, file)), { recursive: true });
  writeFileSync(path.join(root, file), text);
}

export function has(root: string, file: string): boolean {
  return existsSync(path.join(root, file));
}

/** How often npm was asked to install. */
export function installs(root: string): number {
  const log = path.join(root, '.tools/log');
  return existsSync(log) ? readFileSync(log, 'utf8').split('\n').length - 1 : 0;
}

export interface Ending {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** Starts one of the scripts in src/setup/, in a process group of its own so that all of it can be killed. */
export function launch(root: string, script: string, args: string[] = [], env: Record<string, string> = {}) {
  const child = spawn(process.execPath, [path.join(root, 'src/setup', script), ...args], {
    cwd: root,
    detached: true,
    stdio: ['ignore', 'pipe', 'pipe'],
    env: { ...process.env, npm_execpath: path.join(root, '.tools/npm-cli.js'), REAL_TREE: REAL, ...env },
  });
  return { child, ending: endingOf(child) };
}

export function start(root: string, args: string[] = [], env: Record<string, string> = {}): Promise<Ending> {
  return launch(root, 'start.mjs', args, env).ending;
}

export async function until(what: () => boolean, withinMs = 10_000): Promise<void> {
  const deadline = Date.now() + withinMs;
  while (!what()) {
    if (Date.now() > deadline) throw new Error('waited too long');
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
}

function endingOf(child: ChildProcess): Promise<Ending> {
  let out = '';
  let err = '';
  child.stdout?.on('data', (bytes: Buffer) => {
    out += bytes.toString();
  });
  child.stderr?.on('data', (bytes: Buffer) => {
    err += bytes.toString();
  });
  return new Promise((resolve, reject) => {
    child.on('error', reject);
    child.on('close', (code) => resolve({ code, out, err }));
  });
}

// Stands in for npm: same order of events (empty the folder, fill it, list it last), packages linked from here.
const FAKE_NPM = `
const fs = require('node:fs');
const path = require('node:path');
fs.appendFileSync(path.join(__dirname, 'log'), process.argv.slice(2).join(' ') + '\\n');
if (process.env.NPM_DOES === 'balk') process.exit(9);
fs.rmSync('node_modules', { recursive: true, force: true });
fs.mkdirSync('node_modules');
const real = path.join(process.env.REAL_TREE, 'node_modules');
fs.symlinkSync(path.join(real, 'ink'), 'node_modules/ink', 'junction');
if (process.env.NPM_DOES === 'fail') {
  console.error('npm error no way');
  process.exit(7);
}
function finish() {
  for (const name of ['react', 'rolldown']) {
    fs.symlinkSync(path.join(real, name), path.join('node_modules', name), 'junction');
  }
  fs.writeFileSync('node_modules/.package-lock.json', '{}');
}
setTimeout(finish, process.env.NPM_DOES === 'hang' ? 60000 : 300);
`;
