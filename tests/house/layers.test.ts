// House rules of our own: who may import whom, what the pure folders may know, how long a file may be.
import { isBuiltin } from 'node:module';
import { describe, expect, test } from 'vitest';
import { codeOnly, importsOf } from './source-text.ts';
import { read, treeFiles } from './tree.ts';

const LAYERS = [
  'main',
  'commands',
  'screen',
  'plain',
  'report',
  'review',
  'journal',
  'conversation',
  'diagnosis',
  'rulebook',
  'chemistry',
  'quantity',
];
const PURE = LAYERS.slice(LAYERS.indexOf('conversation'));
const SETUP = 'setup';

const tree = treeFiles();
const isCode = (file: string): boolean => /\.(ts|tsx|mjs)$/.test(file);
const sources = tree.filter((file) => file.startsWith('src/') && isCode(file));
const tests = tree.filter((file) => file.startsWith('tests/') && isCode(file));

/** `src/main.ts` -> main, `src/journal/read.ts` -> journal, anything outside src/ -> undefined. */
function layerOf(file: string): string | undefined {
  return /^src\/([^/.]+)(?:\/|\.tsx?$)/.exec(file)?.[1];
}

function upwardImports(file: string, source: string): string[] {
  const from = layerOf(file) ?? '';
  return importsOf(file, source)
    .filter(({ target }) => target !== undefined && !mayImport(from, layerOf(target)))
    .map(({ specifier }) => `${file} imports ${specifier}`);
}

function mayImport(from: string, to: string | undefined): boolean {
  if (to === undefined) return false;
  if (from === SETUP || to === SETUP) return from === to;
  return LAYERS.indexOf(to) >= LAYERS.indexOf(from);
}

const OUTSIDE_WORLD =
  /\bnew\s+Date\b|\bDate\s*[.(]|:\s*Date\b|\bMath\s*\.\s*random\b|\bprocess\s*\.|\bconsole\s*\.|\bglobalThis\b|\bperformance\s*\.|\bset(?:Timeout|Interval|Immediate)\b/;

function impurities(file: string, source: string): string[] {
  const imports = importsOf(file, source)
    .map(({ specifier }) => specifier)
    .filter((name) => isBuiltin(name) || /^(ink|react)(\/|-|$)/.test(name));
  const reached = OUTSIDE_WORLD.exec(codeOnly(source))?.[0];
  return [...imports, ...(reached === undefined ? [] : [reached])].map((what) => `${file} uses ${what}`);
}

const NETWORK_MODULES = /^(?:node:)?(?:https?|http2|tls|dgram)$|^(?:undici|axios|got|ws|node-fetch)(?:\/|$)/;
const NETWORK_NAMES =
  /\bglobalThis\s*\.\s*fetch\b|\bfetch\s*\(|\bXMLHttpRequest\b|\bWebSocket\b|\bEventSource\b/;

function networkUses(file: string, source: string): string[] {
  const imports = importsOf(file, source)
    .map(({ specifier }) => specifier)
    .filter((name) => NETWORK_MODULES.test(name));
  const named = NETWORK_NAMES.exec(codeOnly(source))?.[0];
  return [...imports, ...(named === undefined ? [] : [named])].map((what) => `${file} uses ${what}`);
}

const lineCount = (file: string): number => read(file).replace(/\n$/, '').split('\n').length;
const tooLong = (files: string[], most: number): string[] =>
  files.filter((file) => lineCount(file) > most).map((file) => `${file}: ${lineCount(file)} lines`);

describe('the layers of src/', () => {
  test('there are sources to look at', () => {
    expect(sources.length).toBeGreaterThan(5);
  });

  test('every source stands in a known layer', () => {
    const known = new Set([...LAYERS, SETUP]);
    expect(sources.filter((file) => !known.has(layerOf(file) ?? ''))).toEqual([]);
  });

  test('imports run downward only, and never out of src/', () => {
    expect(sources.flatMap((file) => upwardImports(file, read(file)))).toEqual([]);
  });

  test('the pure folders know no terminal, no file system, no clock and no chance', () => {
    const pure = sources.filter((file) => PURE.includes(layerOf(file) ?? ''));
    expect(pure.flatMap((file) => impurities(file, read(file)))).toEqual([]);
  });

  test('nothing speaks to a network', () => {
    expect(sources.flatMap((file) => networkUses(file, read(file)))).toEqual([]);
  });
});

describe('the size and names of files', () => {
  test('no source is longer than 300 lines', () => {
    expect(tooLong(sources, 300)).toEqual([]);
  });

  test('no test is longer than 400 lines', () => {
    expect(tooLong(tests, 400)).toEqual([]);
  });

  test('no file is a drawer for everything', () => {
    const drawers = [...sources, ...tests].filter((file) =>
      /(^|\/)(utils?|helpers?|misc)\.[a-z]+$/.test(file),
    );
    expect(drawers).toEqual([]);
  });
});

describe('these checks notice a fault', () => {
  test.each([
    ['src/journal/read.ts', "import { show } from '../screen/show.ts';"],
    ['src/quantity/parse.ts', "export * from '../chemistry/density.ts';"],
    ['src/quantity/parse.ts', "import type { A } from '../main.ts';"],
    ['src/commands/talk.ts', "const a = await import('../setup/ready.mjs');"],
    ['src/setup/ready.mjs', "import { a } from '../journal/read.ts';"],
    ['src/report/html.ts', "import { a } from '../../tests/house/tree.ts';"],
    ['src/plain/view.ts', "import {\n  a,\n  b,\n} from '../screen/view.ts';"],
  ])('%s: %s', (file, source) => {
    expect(upwardImports(file, source)).toHaveLength(1);
  });

  test.each([
    "import { readFileSync } from 'node:fs';",
    "import fs from 'fs';",
    "import { Text } from 'ink';",
    "import 'react/jsx-runtime';",
    'const now = Date.now();',
    'const now = new Date();',
    'const chance = Math.random();',
    'const hello = `$' + '{Math.random()}`;',
    'console.log(1);',
  ])('a pure file may not say: %s', (source) => {
    expect(impurities('src/conversation/step.ts', source)).toHaveLength(1);
  });

  test.each([
    "// Date.now() is not for here\nimport * as z from 'zod';",
    "const words = 'Date. Nothing else';",
    '/** reads no Date() */ const a = 1; // new Date',
  ])('a pure file may say: %s', (source) => {
    expect(impurities('src/conversation/step.ts', source)).toEqual([]);
  });

  test.each([
    "import https from 'node:https';",
    "const { request } = await import('undici');",
    'globalThis.fetch;',
    'await fetch(address);',
    'new WebSocket(address);',
  ])('no source may say: %s', (source) => {
    expect(networkUses('src/report/html.ts', source)).toHaveLength(1);
  });
});
