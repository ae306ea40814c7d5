import { mkdirSync, mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { verify } from '../../src/commands/verify.ts';
import { lineHash } from '../../src/journal/line-hash.ts';
import { book } from '../rulebook/cases.ts';
import { demo, demoFile, fileOf, newFolder, whole, without } from './damaged-demo.ts';

vi.setConfig({ testTimeout: 60_000 });
// Reading the rules anew for every command takes seconds, and is not what is tested here.
vi.mock('../../src/commands/open-book.ts', () => ({ openBook: async () => book }));

describe('batchside verify', () => {
  let out = '';
  afterEach(() => vi.restoreAllMocks());
  async function run(words: string[], options: { json?: boolean; head?: string } = {}): Promise<number> {
    out = '';
    vi.spyOn(process.stdout, 'write').mockImplementation((text) => {
      out += String(text);
      return true;
    });
    return verify(words, { json: false, ...options });
  }

  function folderOfThree(): string {
    const folder = newFolder();
    fileOf(whole(demo), folder, '1.ndjson');
    fileOf(whole(without(12)), folder, '2.ndjson');
    fileOf(`${whole(demo)}{"v":`, folder, '3.ndjson');
    mkdirSync(join(folder, '4.ndjson'));
    fileOf('beside it', folder, '3.ndjson.torn-after-51');
    return folder;
  }

  it('says that a good journal is good, and what that does not prove', async () => {
    expect(await run([demoFile])).toBe(0);
    expect(out).toMatch(/^GOOD {2}/);
    expect(out).toContain(lineHash(demo.at(-1) ?? ''));
    expect(out).toMatch(/cut off the end/);
    expect(
      out
        .split('\n')
        .slice(1)
        .filter((line) => line.length > 80),
    ).toEqual([]);
  });

  it('tells of each journal of a folder in a line, and ends with totals', async () => {
    expect(await run([folderOfThree()])).toBe(1);
    const lines = out.split('\n');
    expect(lines[0]).toMatch(/^GOOD +1\.ndjson +51 records/);
    expect(lines[1]).toMatch(/^BAD +2\.ndjson +line 12: missing/);
    expect(lines[2]).toMatch(/^DOUBTFUL +3\.ndjson +line 52: torn-end: 5 bytes/);
    expect(lines[3]).toMatch(/^BAD +4\.ndjson +unreadable/);
    expect(lines[4]).toMatch(/^4 journals, 113 records: 1 good, 1 doubtful, 2 bad\./);
  });

  it('gives the same as JSON, one line a journal', async () => {
    expect(await run([folderOfThree()], { json: true })).toBe(1);
    const told = out
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line) as Record<string, unknown>);
    expect(told.map((one) => one.verdict)).toEqual(['good', 'bad', 'doubtful', 'bad', undefined]);
    expect(told[1]?.problem).toMatchObject({ kind: 'missing', line: 12, means: expect.any(String) });
    expect(told[4]).toEqual({ totals: { journals: 4, good: 1, doubtful: 1, bad: 2, records: 113 } });
  });

  it('takes a fingerprint as it was written down, and says so when it is not there', async () => {
    const file = demoFile;
    expect(await run([file], { head: lineHash(demo[19] ?? '').toUpperCase() })).toBe(0);
    expect(out).toMatch(/Line 20 has the fingerprint .* 31 records came after it/);
    expect(await run([file], { head: '0'.repeat(64) })).toBe(1);
    expect(out).toMatch(/not-the-same/);
  });

  it.each([
    { what: 'no journal', words: [] },
    { what: 'two journals', words: ['a', 'b'] },
    { what: 'a path that is not there', words: ['/no/such'] },
    { what: 'a folder without journals', words: [mkdtempSync(join(tmpdir(), 'no-journals-'))] },
    { what: 'a fingerprint for a folder', words: [dirname(demoFile)], head: '0'.repeat(64) },
    { what: 'a fingerprint that is none', words: [demoFile], head: 'xyz' },
  ])('asks for what it needs: $what', async ({ words, head }) => {
    const refused = run([...words], head === undefined ? {} : { head });
    await expect(refused).rejects.toThrow(/batchside verify LOG/);
  });
});
