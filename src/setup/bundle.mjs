// src/ -> dist/: the program in one ECMAScript module, seldom-used code in lazy chunks, the rules compiled.
import {
  chmodSync,
  existsSync,
  mkdirSync,
  readdirSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { readManifest } from './stamps.mjs';

const DAY_MS = 24 * 60 * 60 * 1000;
const KEEP_OLD_CHUNKS_MS = 14 * DAY_MS;
const EMPTY = '\0empty';

/** Builds everything; returns the names written. The entry is replaced last, so a failed build leaves the old one. */
export async function buildAll(root) {
  const dist = path.join(root, 'dist');
  mkdirSync(dist, { recursive: true });
  const program = await bundle(root, 'src/main.ts', 'main', true);
  const rules = existsSync(path.join(root, 'src/commands/compile-rules.ts'))
    ? await writeRulebook(root, dist)
    : [];
  const chunks = program.filter((file) => file.name !== 'main.js');
  for (const file of [...chunks, ...program.filter((each) => each.name === 'main.js')]) put(dist, file);
  chmodSync(path.join(dist, 'main.js'), 0o755);
  const written = [...program.map((file) => file.name), ...rules];
  dropOldChunks(dist, written);
  return written;
}

async function writeRulebook(root, dist) {
  const compiler = await bundle(root, 'src/commands/compile-rules.ts', 'compile-rules', false);
  for (const file of compiler) put(dist, file);
  const { compileRules } = await import(pathToFileURL(path.join(dist, 'compile-rules.js')).href);
  const rules = await compileRules(root);
  for (const file of rules) put(dist, file);
  return [...compiler, ...rules].map((file) => file.name);
}

/** Bundles one entry in memory: a list of { name, text }. */
async function bundle(root, entry, name, split) {
  const { rolldown } = await import('rolldown');
  const build = await rolldown({
    cwd: root,
    input: { [name]: path.join(root, entry) },
    platform: 'node',
    tsconfig: path.join(root, 'tsconfig.json'),
    plugins: [withoutDevtools],
    transform: { target: 'node20', define: defines(root) },
    onLog(level, log, report) {
      report(level === 'warn' ? 'error' : level, log);
    },
  });
  try {
    // Chunks lie beside the entry: both find rulebook.json by their own address.
    const { output } = await build.generate({
      format: 'esm',
      codeSplitting: split,
      entryFileNames: '[name].js',
      chunkFileNames: '[name]-[hash].js',
      banner: (chunk) => (chunk.isEntry && chunk.name === 'main' ? '#!/usr/bin/env node' : ''),
    });
    return output.map((file) => ({
      name: file.fileName,
      text: file.type === 'chunk' ? file.code : file.source,
    }));
  } finally {
    await build.close();
  }
}

function defines(root) {
  return {
    __VERSION__: JSON.stringify(readManifest(root).version),
    // The layout engine's loader would start Node's HTTP client to read bytes that it already has: 20 ms, and
    // this program has no use for the network.
    fetch: 'undefined',
    'process.env.NODE_ENV': '"production"',
    'process.env.DEV': '"false"',
  };
}

// Ink reads DEV from the environment itself, so the define above does not reach it; its inspector would bring in
// a WebSocket client and look for a package that we do not have.
const withoutDevtools = {
  name: 'without-devtools',
  resolveId(source, importer) {
    const isInspector = source === './devtools.js' && /[\\/]ink[\\/]build[\\/]/.test(importer ?? '');
    return isInspector || source === 'react-devtools-core' ? EMPTY : null;
  },
  load(id) {
    return id === EMPTY ? 'export default undefined;' : null;
  },
};

function put(dist, { name, text }) {
  const draft = path.join(dist, `.${name}.${process.pid}`);
  writeFileSync(draft, text);
  renameSync(draft, path.join(dist, name));
}

// A batch takes days: a program that is running now may still load a chunk of the build before this one. Chunk
// names carry a content hash, so old and new do not collide.
function dropOldChunks(dist, written) {
  for (const name of readdirSync(dist)) {
    if (!/\.js(on)?(\.\d+)?$/.test(name) || written.includes(name)) continue;
    const file = path.join(dist, name);
    if (Date.now() - statSync(file).mtimeMs > KEEP_OLD_CHUNKS_MS) rmSync(file);
  }
}
