// House rules of our own: what lies at the top of the tree, and that nothing in it names one machine.
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { ROOT, read, treeFiles } from './tree.ts';

const TOP_LEVEL = [
  '.ci',
  '.gitignore',
  'DEVELOPERS.md',
  'README.md',
  'biome.json',
  'docs',
  'package-lock.json',
  'package.json',
  'rules',
  'src',
  'tests',
  'transcripts-demo',
  'tsconfig.json',
];

const HOME_PATH = /(?<![\w.])\/(?:home|Users|root)\/[\w.-]+|\b[A-Z]:\\Users\\/;
const REGISTRY = /https?:\/\/[\w.-]*(?:registry|npmjs|artifactory|nexus|verdaccio)[\w.-]*|_auth(?:Token)/i;

const tree = treeFiles();
const texts = tree.filter((file) => !/\.(png|svg|gif|jpe?g|ico|pdf)$/.test(file));

function machineTraces(text: string, root: string, registry: string | undefined): string[] {
  const traces = [HOME_PATH.exec(text)?.[0], REGISTRY.exec(text)?.[0]];
  if (saysPath(text, root)) traces.push(root);
  const host = registry === undefined ? '' : hostOf(registry);
  if (host !== '' && text.includes(host)) traces.push(host);
  return traces.filter((trace) => trace !== undefined);
}

// A tree that lies right under the top of the disk has a name like any other word: only deeper paths tell a machine.
function saysPath(text: string, root: string): boolean {
  return root.split(path.sep).length > 2 && text.includes(root);
}

function hostOf(address: string): string {
  return URL.canParse(address) ? new URL(address).host : '';
}

describe('the top level', () => {
  test('holds just what it should', () => {
    const found = new Set(tree.map((file) => file.split('/')[0] ?? ''));
    expect([...found].sort()).toEqual(TOP_LEVEL);
  });
});

describe('the tree names no machine', () => {
  test('no file holds a path of this machine or the address of a package registry', () => {
    const traces = texts.flatMap((file) =>
      machineTraces(read(file), ROOT, process.env.npm_config_registry).map((trace) => `${file}: ${trace}`),
    );
    expect(traces).toEqual([]);
  });

  test('the lock file lets every machine use its own registry', () => {
    expect(read('package-lock.json')).not.toMatch(/"resolved": "https?:/);
  });

  test.each([
    ['see /hom' + 'e/jo/batches', 1],
    ['see https://regi' + 'stry.example.org/zod', 1],
    ['built in /srv/tree/src', 1],
    ['from mirror.example:8080', 1],
    ['docs/home/first-batch.md and dist/main.js', 0],
  ])('%s', (text, count) => {
    expect(machineTraces(text, '/srv/tree', 'https://mirror.example:8080/all')).toHaveLength(count);
  });
});
