import { rmSync, utimesSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import {
  buildKey,
  forgetInstalled,
  installKey,
  isBuilt,
  isInstalled,
  markBuilt,
  markInstalled,
} from '../../src/setup/stamps.mjs';
import { put, smallTree } from './small-tree.ts';

const MACHINE = { abi: '115', platform: 'linux', arch: 'x64' };

function installedTree(): string {
  const root = smallTree({ 'node_modules/.package-lock.json': '{}' });
  markInstalled(root);
  return root;
}

function builtTree(): string {
  const root = smallTree({ 'dist/main.js': '' });
  markBuilt(root, buildKey(root), ['main.js']);
  return root;
}

describe('what was installed', () => {
  test('is taken as missing until a stamp says otherwise', () => {
    expect(isInstalled(smallTree())).toBe(false);
    expect(isInstalled(installedTree())).toBe(true);
  });

  test('stays good when files are only touched', () => {
    const root = installedTree();
    utimesSync(path.join(root, 'package-lock.json'), new Date(0), new Date(0));
    utimesSync(path.join(root, 'package.json'), new Date(), new Date());
    expect(isInstalled(root)).toBe(true);
  });

  test('stays good when package.json changes in a part that installs nothing', () => {
    const root = installedTree();
    put(
      root,
      'package.json',
      '{ "version": "9.9.9", "scripts": { "a": "b" }, "dependencies": { "ink": "6.8.0" } }',
    );
    expect(isInstalled(root)).toBe(true);
  });

  test.each([
    ['a dependency', 'package.json', '{ "dependencies": { "ink": "6.8.1" } }'],
    ['an override', 'package.json', '{ "dependencies": { "ink": "6.8.0" }, "overrides": { "a": "1.0.0" } }'],
    [
      'a development tool',
      'package.json',
      '{ "dependencies": { "ink": "6.8.0" }, "devDependencies": { "a": "1.0.0" } }',
    ],
    ['the lock file', 'package-lock.json', '{ "lockfileVersion": 3, "packages": {} }\n'],
    ['what npm says it installed', 'node_modules/.package-lock.json', '{ "packages": {} }'],
  ])('is out of date when %s changes', (_what, file, text) => {
    const root = installedTree();
    put(root, file, text);
    expect(isInstalled(root)).toBe(false);
  });

  test.each([
    { ...MACHINE, abi: '127' },
    { ...MACHINE, platform: 'darwin' },
    { ...MACHINE, arch: 'arm64' },
  ])('is another thing on another machine: %o', (machine) => {
    const root = smallTree();
    expect(installKey(root, machine)).not.toBe(installKey(root, MACHINE));
    expect(installKey(root, { ...MACHINE })).toBe(installKey(root, MACHINE));
  });

  test('is out of date once forgotten, or when its stamp is torn', () => {
    const forgotten = installedTree();
    forgetInstalled(forgotten);
    expect(isInstalled(forgotten)).toBe(false);
    const torn = installedTree();
    put(torn, 'node_modules/.batchside-stamp.json', '{ "key": "12');
    expect(isInstalled(torn)).toBe(false);
  });

  test('is judged by what stood there before: a change made while npm ran counts', () => {
    const root = smallTree();
    const before = installKey(root);
    put(root, 'package-lock.json', '{ "changed": true }');
    markInstalled(root, before);
    expect(isInstalled(root)).toBe(false);
  });
});

describe('what was built', () => {
  test('is taken as missing until a stamp says otherwise', () => {
    expect(isBuilt(smallTree())).toBe(false);
    expect(isBuilt(builtTree())).toBe(true);
  });

  test('stays good when files are only touched, or an editor leaves its own', () => {
    const root = builtTree();
    utimesSync(path.join(root, 'src/main.ts'), new Date(0), new Date(0));
    put(root, 'src/.main.ts.swp', 'x');
    put(root, 'src/main.ts~', 'x');
    put(root, 'tests/one.test.ts', 'x');
    expect(isBuilt(root)).toBe(true);
  });

  test.each([
    ['a source changes', 'src/main.ts', 'console.log();'],
    ['a source is added', 'src/chemistry/new.ts', ''],
    ['a rule changes', 'rules/one.yaml', 'id: two\n'],
    ['the build script changes', 'src/setup/bundle.mjs', '// new'],
    ['the lock file changes', 'package-lock.json', '{}'],
    ['the version changes', 'package.json', '{ "version": "1.2.4" }'],
    ['the compiler options change', 'tsconfig.json', '{}'],
  ])('is out of date when %s', (_what, file, text) => {
    const root = builtTree();
    put(root, file, text);
    expect(isBuilt(root)).toBe(false);
  });

  test('is out of date when a source goes, is renamed, or a built file is lost', () => {
    const gone = builtTree();
    rmSync(path.join(gone, 'rules/one.yaml'));
    expect(isBuilt(gone)).toBe(false);
    const renamed = builtTree();
    rmSync(path.join(renamed, 'rules/one.yaml'));
    put(renamed, 'rules/two.yaml', 'id: one\n');
    expect(isBuilt(renamed)).toBe(false);
    const lost = builtTree();
    rmSync(path.join(lost, 'dist/main.js'));
    expect(isBuilt(lost)).toBe(false);
  });

  test('tells apart trees whose bytes only moved from one file to the next', () => {
    const one = smallTree({ 'src/a.ts': 'ab', 'src/b.ts': 'c' });
    const two = smallTree({ 'src/a.ts': 'a', 'src/b.ts': 'bc' });
    expect(buildKey(one)).not.toBe(buildKey(two));
    expect(buildKey(smallTree())).toBe(buildKey(smallTree()));
  });
});
