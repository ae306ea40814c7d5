import { closeSync, openSync, rmSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it, vi } from 'vitest';
import { makeStep } from '../../src/conversation/step.ts';
import { lineHash } from '../../src/journal/line-hash.ts';
import { mostRetold } from '../../src/journal/retell.ts';
import { verifyJournal } from '../../src/journal/verify.ts';
import { book } from '../rulebook/cases.ts';
import { newFolder } from './damaged-demo.ts';

vi.setConfig({ testTimeout: 120_000 });

const step = makeStep(book);
const megabyte = 2 ** 20;

/** A journal of remarks, some 3 kB each, as long as is wanted. */
function longJournal(bytes: number): { file: string; records: number } {
  const file = join(newFolder(), 'long.ndjson');
  const handle = openSync(file, 'w');
  let prev = '0'.repeat(64);
  let records = 0;
  const put = (event: object): number => {
    records += 1;
    const line = JSON.stringify({ v: 2, seq: records, at: '2026-03-02T08:00:00.000Z', prev, event });
    prev = lineHash(line);
    return writeSync(handle, `${line}\n`);
  };
  let written = put({ type: 'BatchOpened', batch: 'b', program: 'test', rules: 'r' });
  const text = 'The oil is still warm, and the drain runs clear. '.repeat(60);
  while (written < bytes) written += put({ type: 'NoteMade', text });
  closeSync(handle);
  return { file, records };
}

describe('a journal far longer than any batch', () => {
  it('is verified to its end in memory that does not grow with it', () => {
    const peak = () => process.resourceUsage().maxRSS * 1024;
    const small = longJournal(40 * megabyte);
    const large = longJournal(160 * megabyte);
    expect(verifyJournal(small.file, step)).toMatchObject({ verdict: 'good', records: small.records });
    const before = peak();
    const told = verifyJournal(large.file, step);
    expect(told).toMatchObject({ verdict: 'good', records: large.records, retold: mostRetold });
    expect(told.doubts).toMatchObject([{ kind: 'long' }]);
    // Kept whole, the bytes alone would take 160 MB, and their text as much again.
    expect(peak() - before).toBeLessThan(40 * megabyte);
    rmSync(small.file);
    rmSync(large.file);
  });
});
