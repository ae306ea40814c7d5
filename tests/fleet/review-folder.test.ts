import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { runProgram } from '../commands/run-program.ts';

vi.setConfig({ testTimeout: 60_000 });

const demos = fileURLToPath(new URL('../../transcripts-demo', import.meta.url));
const logs = readdirSync(demos).filter((name) => name.endsWith('.ndjson'));
const folder = mkdtempSync(join(tmpdir(), 'batchside-folder-'));
const empty = mkdtempSync(join(tmpdir(), 'batchside-empty-'));
const clean = readFileSync(join(demos, 'clean-first-batch.ndjson'), 'utf8');

beforeAll(() => {
  cpSync(demos, folder, { recursive: true });
  const lines = clean.split('\n');
  writeFileSync(
    join(folder, 'damaged.ndjson'),
    [...lines.slice(0, 4), '{"v":1,', ...lines.slice(4)].join('\n'),
  );
  writeFileSync(join(folder, 'newer.ndjson'), clean.replace(/"v":\d+/, '"v":99'));
  writeFileSync(join(folder, 'headless.ndjson'), lines.slice(1).join('\n'));
  writeFileSync(join(folder, 'nothing.ndjson'), '');
  writeFileSync(join(folder, 'other.ndjson'), '[1,2]\nnull\n');
  writeFileSync(join(folder, 'endless.ndjson'), Buffer.alloc(17 * 2 ** 20, 0x20));
  const torn = join(folder, 'torn.ndjson');
  writeFileSync(torn, clean);
  truncateSync(torn, Buffer.byteLength(clean) - 40);
});
afterAll(() => {
  for (const one of [folder, empty]) rmSync(one, { recursive: true, force: true });
});

describe('batchside review DIR', () => {
  it('counts what can be read, names what cannot, and ends with 1', () => {
    const { code, out, error } = runProgram(['review', folder]);
    expect(error).toBe('');
    expect(code).toBe(1);
    expect(out).toContain(`${logs.length + 1} of ${logs.length + 7} journals counted, 6 not (below).`);
    const bad = out.slice(out.indexOf('journals counted')).replaceAll(/\n +/g, ' ');
    expect(bad).toMatch(/damaged\.ndjson, line 5: this is not JSON/);
    expect(bad).toMatch(/newer\.ndjson, line 1: written by a newer Batchside/);
    expect(bad).toMatch(/headless\.ndjson, line 1: does not begin with the opening of a batch/);
    expect(bad).toMatch(/nothing\.ndjson: holds no record/);
    expect(bad).toMatch(/other\.ndjson, line 1: this is no Batchside record/);
    expect(bad).toMatch(/endless\.ndjson, line 1: this line has no end/);
  });

  it('fits a window of 80 columns', () => {
    const lines = runProgram(['review', demos]).out.split('\n');
    expect(Math.max(...lines.map((line) => [...line].length))).toBeLessThanOrEqual(80);
  });

  it('says of each batch how it ended, what was measured and what held it', () => {
    const { code, out } = runProgram(['review', demos]);
    expect(code).toBe(0);
    expect(out).toMatch(/^failed-conversion-sec~ 2026-04-06 finished +1\.14 +0\.15 +32 +\d+\.\d +\d\.\d$/m);
    expect(out).toMatch(/^dangerous-rig-stopped +2026-04-10 abandoned/m);
    expect(out).toContain('Stops: R23, R05.');
    expect(out).toContain('Limits from fewer than 20 batches are rough.');
  });

  it('gives the same in full as JSON, the torn journal without its last record', () => {
    const { code, out } = runProgram(['review', folder, '--json']);
    const full = JSON.parse(out) as {
      batches: { file: string; records: number; ended: string; values: Record<string, number> }[];
      trends: { id: string; count: number }[];
      counted: number;
      bad: { file: string; says: string }[];
    };
    expect(code).toBe(1);
    expect(full.batches).toHaveLength(full.counted);
    expect(full.bad).toHaveLength(6);
    const records = clean.trim().split('\n').length;
    const named = (file: string) => full.batches.find((batch) => batch.file === file);
    expect(named('clean-first-batch.ndjson')).toMatchObject({ records, ended: 'finished' });
    expect(named('torn.ndjson')).toMatchObject({ records: records - 1, ended: 'unfinished' });
    // Every demo batch but the one that was stopped at the rig, and the torn copy, got as far as the titration.
    expect(full.trends.find(({ id }) => id === 'titration')?.count).toBe(logs.length);
  });

  it('counts findings when asked', () => {
    const { out } = runProgram(['review', demos, '--findings']);
    expect(out.match(/^ {2}Findings: /gm)).toHaveLength(logs.length);
  });

  it.each([
    ['an empty folder', [empty], 'There are no journals'],
    ['a folder that is not there', [join(empty, 'none')], 'There is no log and no folder'],
    ['no folder at all', [], 'Write review'],
  ])('says in one line what is wrong with %s', (_name, words, says) => {
    const { code, error } = runProgram(['review', ...words]);
    expect(code).toBe(2);
    expect(error).toContain(says);
    expect(error.trim().split('\n')).toHaveLength(1);
  });
});
