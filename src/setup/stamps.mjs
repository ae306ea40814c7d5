// What was installed and what was built is remembered by content hash. File times say nothing: a checkout,
// a copy or `touch` changes them without changing a byte.
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';

const INSTALL_STAMP = path.join('node_modules', '.batchside-stamp.json');
const BUILD_STAMP = path.join('dist', '.stamp.json');
const INSTALL_FIELDS = [
  'dependencies',
  'devDependencies',
  'optionalDependencies',
  'peerDependencies',
  'overrides',
  'allowScripts',
];

/** Hash of all that decides what `npm ci` would put into node_modules/ on this machine. */
export function installKey(root, machine = thisMachine()) {
  const manifest = readManifest(root);
  const hash = createHash('sha256');
  add(hash, 'dependencies', JSON.stringify(INSTALL_FIELDS.map((field) => manifest[field] ?? null)));
  add(hash, 'lock', readFileSync(path.join(root, 'package-lock.json')));
  add(hash, 'machine', JSON.stringify([machine.abi, machine.platform, machine.arch]));
  return hash.digest('hex');
}

/** Hash of all that decides what stands in dist/: sources (the build script is one), rules, lock, version. */
export function buildKey(root) {
  const hash = createHash('sha256');
  for (const folder of ['src', 'rules']) {
    for (const file of filesUnder(root, folder)) add(hash, file, readFileSync(path.join(root, file)));
  }
  add(hash, 'lock', readFileSync(path.join(root, 'package-lock.json')));
  add(hash, 'tsconfig', readFileSync(path.join(root, 'tsconfig.json')));
  add(hash, 'version', String(readManifest(root).version));
  return hash.digest('hex');
}

/** True when node_modules/ came from this lock file on this kind of machine, and npm has not changed it since. */
export function isInstalled(root) {
  const stamp = readStamp(root, INSTALL_STAMP);
  return stamp !== undefined && stamp.key === installKey(root) && stamp.tree === treeKey(root);
}

/** True when dist/ was made from just these sources and still holds every file of that build. */
export function isBuilt(root) {
  const stamp = readStamp(root, BUILD_STAMP);
  if (stamp === undefined || !Array.isArray(stamp.files) || stamp.key !== buildKey(root)) return false;
  return stamp.files.every((file) => existsSync(path.join(root, 'dist', file)));
}

/** Only after a whole `npm ci`: `key` is the hash from before it, so a change made meanwhile still counts. */
export function markInstalled(root, key = installKey(root)) {
  writeStamp(root, INSTALL_STAMP, { key, tree: treeKey(root) });
}

/** Only after a whole build; `files` are the names in dist/ that it wrote. */
export function markBuilt(root, key, files) {
  writeStamp(root, BUILD_STAMP, { key, files });
}

export function forgetInstalled(root) {
  rmSync(path.join(root, INSTALL_STAMP), { force: true });
}

export function readManifest(root) {
  return JSON.parse(readFileSync(path.join(root, 'package.json'), 'utf8'));
}

function thisMachine() {
  return { abi: process.versions.modules, platform: process.platform, arch: process.arch };
}

// npm's own list of what it put there: it changes when somebody prunes or adds packages by hand.
function treeKey(root) {
  const list = path.join(root, 'node_modules', '.package-lock.json');
  return existsSync(list) ? createHash('sha256').update(readFileSync(list)).digest('hex') : 'none';
}

// Name and length go in with the content, so that moving bytes from one file to the next changes the hash.
function add(hash, name, content) {
  const bytes = Buffer.from(content);
  hash.update(`${name}\0${bytes.length}\0`).update(bytes);
}

// Dot files and names ending in ~ are an editor's or a file manager's, not ours.
function filesUnder(root, folder) {
  if (!existsSync(path.join(root, folder))) return [];
  const found = [];
  for (const entry of readdirSync(path.join(root, folder), { withFileTypes: true })) {
    if (entry.name.startsWith('.') || entry.name.endsWith('~')) continue;
    const file = `${folder}/${entry.name}`;
    if (entry.isDirectory()) found.push(...filesUnder(root, file));
    else if (entry.isFile()) found.push(file);
  }
  return found.sort();
}

// A stamp that cannot be read or parsed counts as no stamp: the worst that follows is one more build.
function readStamp(root, file) {
  try {
    const stamp = JSON.parse(readFileSync(path.join(root, file), 'utf8'));
    return typeof stamp === 'object' && stamp !== null ? stamp : undefined;
  } catch {
    return undefined;
  }
}

function writeStamp(root, file, stamp) {
  const target = path.join(root, file);
  mkdirSync(path.dirname(target), { recursive: true });
  const draft = `${target}.${process.pid}`;
  writeFileSync(draft, `${JSON.stringify(stamp)}\n`);
  renameSync(draft, target);
}
