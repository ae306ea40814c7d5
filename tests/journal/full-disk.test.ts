import { mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it, vi } from 'vitest';

/** How many bytes the disk still takes; a filling disk takes part of a write without an error. */
let room = Number.POSITIVE_INFINITY;

vi.mock('node:fs', async (original) => {
  const fs = await original<typeof import('node:fs')>();
  const writeSync = (handle: number, data: Buffer, offset: number, length: number, place: number): number => {
    const taken = Math.min(length, room);
    if (taken === 0) throw Object.assign(new Error('no space left on device'), { code: 'ENOSPC' });
    room -= taken;
    return fs.writeSync(handle, data, offset, taken, place);
  };
  return { ...fs, writeSync };
});

// Test files share their modules: these are loaded anew to see the small disk, and forgotten again.
vi.resetModules();
afterAll(() => {
  vi.doUnmock('node:fs');
  vi.resetModules();
});

const { JournalWriter } = await import('../../src/journal/append.ts');
const { readJournal } = await import('../../src/journal/read.ts');

const at = '2026-03-02T08:00:00.000Z';

it.each([0, 1, 60])(
  'a disk with room for %i bytes: says so, keeps the journal whole, goes on when there is room',
  (left) => {
    room = Number.POSITIVE_INFINITY;
    const file = join(mkdtempSync(join(tmpdir(), 'full-')), 'b.ndjson');
    const writer = JournalWriter.create(file);
    writer.append({ type: 'BatchOpened', batch: 'b', program: 'test', rules: 'r', at });
    const before = readFileSync(file, 'utf8');
    room = left;
    expect(() => writer.append({ type: 'NoteMade', text: 'lost?', at })).toThrow(
      /disk is full; free some space/,
    );
    expect(readFileSync(file, 'utf8')).toBe(before);
    room = Number.POSITIVE_INFINITY;
    writer.append({ type: 'NoteMade', text: 'kept', at });
    writer.close();
    expect(readJournal(file).records.map((record) => record.seq)).toEqual([1, 2]);
  },
);
