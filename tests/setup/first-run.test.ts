// The real scripts and the real bundler in a small tree; npm alone is a stand-in, so that no network is needed.
import { rmSync, utimesSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { refuseOldNode } from '../../src/setup/ready.mjs';
import { has, installs, launch, put, start, startableTree, until } from './small-tree.ts';

// Each starts a number of processes, on a machine that may have other work.
const SLOW = { timeout: 60_000 };

const STAMP = 'node_modules/.batchside-stamp.json';

describe('starting', SLOW, () => {
  test('a fresh tree installs, builds and runs, with standard output left to the program', async () => {
    const root = startableTree();
    const first = await start(root, ['a', '--b=c'], { NODE_ENV: 'production' });
    expect(first.err).not.toContain('rror');
    expect(first).toMatchObject({ code: 0, out: 'hello 1.2.3 a --b=c\n' });
    expect(installs(root)).toBe(1);
    expect(has(root, STAMP)).toBe(true);
    expect(has(root, 'dist/.lock')).toBe(false);
  });

  test('a second start does nothing but run, even after a touch', async () => {
    const root = startableTree();
    await start(root);
    utimesSync(path.join(root, 'src/main.ts'), new Date(), new Date());
    expect(await start(root, ['again'])).toEqual({ code: 0, out: 'hello 1.2.3 again\n', err: '' });
    expect(installs(root)).toBe(1);
  });

  test('a built program runs without its packages, so a lost node_modules/ needs no network', async () => {
    const root = startableTree();
    await start(root);
    rmSync(path.join(root, 'node_modules'), { recursive: true });
    expect(await start(root)).toEqual({ code: 0, out: 'hello 1.2.3\n', err: '' });
    expect(installs(root)).toBe(1);
  });

  test('a changed source is built again, without a new install', async () => {
    const root = startableTree();
    await start(root);
    put(root, 'src/main.ts', "console.log('changed');\n");
    expect(await start(root)).toMatchObject({ code: 0, out: 'changed\n' });
    expect(installs(root)).toBe(1);
  });

  test("the program's exit code and its own faults pass through", async () => {
    const root = startableTree({ 'src/main.ts': 'process.exit(Number(process.argv[2]));\n' });
    expect((await start(root, ['42'])).code).toBe(42);
    put(root, 'src/main.ts', "throw new Error('a fault of ours');\n");
    const fault = await start(root);
    expect(fault.code).toBe(1);
    expect(fault.err).toContain('Error: a fault of ours\n    at ');
  });

  test('two first runs at once install once, and both run', async () => {
    const root = startableTree();
    const both = await Promise.all([start(root, ['one']), start(root, ['two'])]);
    expect(both.map(({ out }) => out)).toEqual(['hello 1.2.3 one\n', 'hello 1.2.3 two\n']);
    expect(installs(root)).toBe(1);
  });
});

describe('a set-up that is cut off', SLOW, () => {
  test('leaves no stamp when killed, and the next start begins again', async () => {
    const root = startableTree();
    const { child, ending } = launch(root, 'start.mjs', [], { NPM_DOES: 'hang' });
    await until(() => has(root, 'node_modules/ink'));
    process.kill(-(child.pid ?? 0), 'SIGKILL');
    await ending;
    expect(has(root, STAMP)).toBe(false);
    expect(has(root, 'dist/.lock')).toBe(true);
    expect(await start(root)).toMatchObject({ code: 0, out: 'hello 1.2.3\n' });
    expect(installs(root)).toBe(2);
    expect(has(root, STAMP)).toBe(true);
  });

  test('leaves no stamp when npm gives up before it changed anything', async () => {
    const root = startableTree();
    await start(root);
    put(root, 'package-lock.json', '{ "lockfileVersion": 3, "packages": {} }\n');
    expect((await start(root, [], { NPM_DOES: 'balk' })).code).toBe(1);
    expect(has(root, 'node_modules/ink')).toBe(true);
    expect(has(root, STAMP)).toBe(false);
  });

  test('stops tidily on a signal: npm goes too, the lock is given back, the code says which signal', async () => {
    const root = startableTree();
    const { child, ending } = launch(root, 'start.mjs', [], { NPM_DOES: 'hang' });
    await until(() => has(root, 'node_modules/ink') && has(root, 'dist/.lock/child'));
    child.kill('SIGTERM');
    expect(await ending).toMatchObject({ code: 143, out: '' });
    expect(has(root, STAMP)).toBe(false);
    expect(has(root, 'dist/.lock')).toBe(false);
  });
});

describe('what cannot go on says why in a line', SLOW, () => {
  test('npm fails, as without a network', async () => {
    const root = startableTree();
    const { code, out, err } = await start(root, [], { NPM_DOES: 'fail' });
    expect({ code, out }).toEqual({ code: 1, out: '' });
    expect(err).toContain('npm error no way');
    expect(err).toMatch(/Batchside: the packages could not be fetched .* code 7.*no network here.*\n$/);
    expect(err).not.toContain('    at ');
    expect(has(root, STAMP)).toBe(false);
  });

  test('there is no npm', async () => {
    const root = startableTree();
    const { code, err } = await start(root, [], { npm_execpath: '', PATH: path.join(root, 'nowhere') });
    expect(code).toBe(1);
    expect(err).toMatch(/Batchside: npm was not found\..*\n$/);
  });

  test('there is no lock file', async () => {
    const root = startableTree();
    rmSync(path.join(root, 'package-lock.json'));
    const { code, err } = await start(root);
    expect(code).toBe(1);
    expect(err).toMatch(/^Batchside: package-lock\.json is missing .*\n$/);
  });

  test('the sources do not build: the reason is shown and the program built before is named', async () => {
    const root = startableTree();
    await start(root);
    put(root, 'src/main.ts', "import { nothing } from './not-there.ts';\nconsole.log(nothing);\n");
    const broken = await start(root);
    expect(broken).toMatchObject({ code: 1, out: '' });
    expect(broken.err).toContain('not-there.ts');
    expect(broken.err).toMatch(/Batchside: the program could not be put together.*node dist\/main\.js\n$/);
    put(root, 'src/main.ts', "console.log('mended');\n");
    expect(await start(root)).toMatchObject({ code: 0, out: 'mended\n' });
  });

  test.each(['18.20.4', '20.18.3', '21.7.3', '22.11.0'])('Node.js %s is refused', (version) => {
    expect(() => refuseOldNode(version)).toThrow(version);
  });

  test.each(['20.19.0', '20.20.2', '22.12.0', '24.1.0'])('Node.js %s will do', (version) => {
    expect(() => refuseOldNode(version)).not.toThrow();
  });
});
