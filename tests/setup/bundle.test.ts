// The real bundler over small programs: what dist/ holds, and what must not get into it.
import { readdirSync, readFileSync, statSync, utimesSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { has, launch, put, start, startableTree } from './small-tree.ts';

// Each starts a number of processes, on a machine that may have other work.
const SLOW = { timeout: 60_000 };

const INK_PROGRAM = `
import { render, Text } from 'ink';
import { createElement } from 'react';
render(createElement(Text, null, 'painted'));
`;

function built(root: string): string {
  const files = readdirSync(path.join(root, 'dist')).filter((name) => name.endsWith('.js'));
  return files.map((name) => readFileSync(path.join(root, 'dist', name), 'utf8')).join('\n');
}

describe('the program in dist/', SLOW, () => {
  test('paints with Ink from dist/ alone, in React for production, whatever DEV says', async () => {
    const root = startableTree({ 'src/main.ts': INK_PROGRAM });
    const painted = await start(root, [], { DEV: 'true', NODE_ENV: 'development' });
    expect(painted).toMatchObject({ code: 0, out: expect.stringContaining('painted') });
    expect(built(root)).not.toContain('react.development');
  });

  test('has no way into a network: no fetch, no socket client, no inspector', async () => {
    const root = startableTree({ 'src/main.ts': INK_PROGRAM });
    await start(root);
    expect(built(root)).not.toMatch(
      /\bfetch\s*\(|globalThis\.fetch|new WebSocket|require\("(?:https?|net|tls)"\)/,
    );
    expect(built(root)).not.toMatch(/from "(?:node:)?(?:https?|net|tls)"/);
  });

  test('can be run by itself', async () => {
    const root = startableTree();
    await start(root);
    const main = path.join(root, 'dist/main.js');
    expect(readFileSync(main, 'utf8').split('\n')[0]).toBe('#!/usr/bin/env node');
    expect(statSync(main).mode & 0o111).toBe(0o111);
  });

  test('keeps what is loaded later out of the first file, and old such files for a while', async () => {
    const lazy = "import('./later.ts').then((late) => console.log(late.word));\n";
    const root = startableTree({
      'src/main.ts': lazy,
      'src/later.ts': "export const word = 'first-word';\n",
    });
    expect(await start(root)).toMatchObject({ out: 'first-word\n' });
    const [before] = readdirSync(path.join(root, 'dist')).filter((name) => name.startsWith('later-'));
    expect(readFileSync(path.join(root, 'dist/main.js'), 'utf8')).not.toContain('first-word');
    put(root, 'src/later.ts', "export const word = 'second-word';\n");
    expect(await start(root)).toMatchObject({ out: 'second-word\n' });
    expect(has(root, `dist/${before}`)).toBe(true);
    const longAgo = new Date(Date.now() - 30 * 24 * 60 * 60 * 1000);
    utimesSync(path.join(root, `dist/${before}`), longAgo, longAgo);
    expect(await launch(root, 'build.mjs').ending).toMatchObject({ code: 0 });
    expect(has(root, `dist/${before}`)).toBe(false);
  });
});

describe('the rules in dist/', SLOW, () => {
  const COMPILER = `
    import { readFile } from 'node:fs/promises';
    export async function compileRules(root: string): Promise<{ name: string; text: string }[]> {
      const text = await readFile(root + '/rules/one.yaml', 'utf8');
      if (text.includes('bad')) throw new Error('rules/one.yaml:1: id: not a good id');
      return [{ name: 'rulebook.json', text: JSON.stringify({ text }) }];
    }
  `;
  const READER = `
    import { readFileSync } from 'node:fs';
    console.log(readFileSync(new URL('./rulebook.json', import.meta.url), 'utf8'));
  `;
  const files = { 'src/commands/compile-rules.ts': COMPILER, 'src/main.ts': READER };

  test('are compiled beside the program, and again when a rule changes', async () => {
    const root = startableTree(files);
    expect(await start(root)).toMatchObject({ code: 0, out: '{"text":"id: one\\n"}\n' });
    put(root, 'rules/one.yaml', 'id: three\n');
    expect(await start(root)).toMatchObject({ code: 0, out: '{"text":"id: three\\n"}\n' });
  });

  test('that do not compile stop the build, with their own message and no stamp', async () => {
    const root = startableTree({ ...files, 'rules/one.yaml': 'id: bad\n' });
    const { code, out, err } = await start(root);
    expect({ code, out }).toEqual({ code: 1, out: '' });
    expect(err).toContain('rules/one.yaml:1: id: not a good id\n');
    expect(err).not.toContain('    at ');
    expect(has(root, 'dist/.stamp.json')).toBe(false);
    put(root, 'rules/one.yaml', 'id: one\n');
    expect(await start(root)).toMatchObject({ code: 0 });
  });
});
