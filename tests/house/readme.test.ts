import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

const root = new URL('../../', import.meta.url);
const read = (name: string) => readFileSync(new URL(name, root), 'utf8').replaceAll('\u00a0', ' ');
const readme = read('README.md');

describe('the README', () => {
  it('shows a talk that really was', () => {
    const talk = /## What a talk looks like\n+```\n([\s\S]*?)```/.exec(readme)?.[1] ?? '';
    const lines = talk.split('\n').filter((line) => line.trim() !== '' && line.trim() !== '...');
    expect(lines.length).toBeGreaterThan(10);
    const recorded = read('transcripts-demo/clean-first-batch.txt').split('\n');
    expect(lines.filter((line) => !recorded.includes(line))).toEqual([]);
  });

  it('links only to pages that exist', () => {
    for (const [, path] of readme.matchAll(/\]\(([^)]+)\)/g)) {
      expect(() => readFileSync(new URL(path ?? '', root)), path).not.toThrow(/ENOENT/);
    }
  });

  it('names commands that package.json has', () => {
    const { scripts } = JSON.parse(read('package.json')) as { scripts: Record<string, string> };
    const named = [...read('DEVELOPERS.md').matchAll(/npm run ([a-z]+)/g)].map(([, name]) => name ?? '');
    expect(named.filter((name) => !(name in scripts))).toEqual([]);
  });
});
