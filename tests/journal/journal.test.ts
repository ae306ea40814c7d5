import {
  appendFileSync,
  chmodSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  statSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { TalkEvent } from '../../src/conversation/events.ts';
import { JournalWriter } from '../../src/journal/append.ts';
import { lockJournal } from '../../src/journal/lock.ts';
import { eventsOf, readJournal } from '../../src/journal/read.ts';

const at = '2026-03-02T08:00:00.000Z';
const opened: TalkEvent = { type: 'BatchOpened', batch: 'b', program: 'test', rules: 'r', at };
const note = (text: string): TalkEvent => ({ type: 'NoteMade', text, at });

function journalOf(...events: TalkEvent[]): string {
  const file = join(mkdtempSync(join(tmpdir(), 'journal-')), 'b.ndjson');
  const writer = JournalWriter.create(file);
  for (const event of events) writer.append(event);
  writer.close();
  return file;
}

/** Changes one line in place, keeping the others. */
function changeLine(file: string, number: number, change: (line: string) => string): void {
  const lines = readFileSync(file, 'utf8').split('\n');
  lines[number - 1] = change(lines[number - 1] ?? '');
  writeFileSync(file, lines.join('\n'));
}

describe('a journal', () => {
  it('gives back the events it was given, raw text and all', () => {
    const odd = note('tab\t, \u202eturned, "quoted" and \u0007 bell');
    const file = journalOf(opened, odd);
    expect(eventsOf(readJournal(file))).toEqual([opened, odd]);
  });

  it('has a record on disk when append returns', () => {
    const file = join(mkdtempSync(join(tmpdir(), 'journal-')), 'b.ndjson');
    const writer = JournalWriter.create(file);
    writer.append(opened);
    expect(readFileSync(file, 'utf8').endsWith('\n')).toBe(true);
    expect(readJournal(file).records).toHaveLength(1);
  });

  it('is readable by its owner only', () => {
    expect(statSync(journalOf(opened)).mode & 0o077).toBe(0);
  });

  it('is never written over by a new batch of the same name', () => {
    const file = journalOf(opened);
    expect(() => JournalWriter.create(file)).toThrow(/already a journal of this name/);
  });
});

describe('after a power cut', () => {
  it('loads whatever byte the file was cut at, and sets a torn end aside', () => {
    const whole = journalOf(opened, note('one'), note('two'));
    const bytes = readFileSync(whole);
    for (let length = 0; length <= bytes.length; length += 1) {
      const file = join(mkdtempSync(join(tmpdir(), 'cut-')), 'b.ndjson');
      writeFileSync(file, bytes.subarray(0, length));
      const journal = readJournal(file);
      const records = bytes.subarray(0, length).toString().split('\n').length - 1;
      expect(journal.records).toHaveLength(records);
      const torn = bytes.subarray(0, length).toString().split('\n').at(-1);
      expect(journal.torn ?? '').toBe(torn);
    }
  });

  it('goes on after the last whole record and keeps the torn piece beside the journal', () => {
    const file = journalOf(opened, note('one'));
    appendFileSync(file, '{"v":1,"seq":3,"at":"2026');
    const writer = JournalWriter.resume(readJournal(file));
    writer.append(note('two'));
    writer.close();
    expect(eventsOf(readJournal(file)).map((event) => event.type)).toEqual([
      'BatchOpened',
      'NoteMade',
      'NoteMade',
    ]);
    const kept = readdirSync(join(file, '..')).filter((name) => name.includes('torn'));
    expect(kept).toHaveLength(1);
  });
});

describe('a damaged journal stops and names the line', () => {
  const damages: { damage: string; line: number; change: (line: string) => string; says: RegExp }[] = [
    { damage: 'a line that is not JSON', line: 2, change: () => '{"v":1', says: /line 2: this is not JSON/ },
    {
      damage: 'an edited answer',
      line: 2,
      change: (line) => line.replace('one', 'won'),
      says: /line 3: .*changed after it was written/,
    },
    { damage: 'a missing line', line: 2, change: () => '', says: /line 2: / },
    {
      damage: 'an unknown event',
      line: 2,
      change: (line) => line.replace('NoteMade', 'Invented'),
      says: /line 2: event/,
    },
    {
      damage: 'a newer format',
      line: 2,
      change: (line) => line.replace('"v":2', '"v":99'),
      says: /line 2: .*newer Batchside \(format 99\)/,
    },
    {
      damage: 'no version',
      line: 1,
      change: (line) => line.replace('"v":2,', ''),
      says: /line 1: .*no version/,
    },
    {
      damage: 'a wrong sequence number',
      line: 2,
      change: (line) => line.replace('"seq":2', '"seq":7'),
      says: /line 2: record 7 stands where record 2 belongs/,
    },
  ];
  it.each(damages)('$damage', ({ line, change, says }) => {
    const file = journalOf(opened, note('one'), note('two'));
    changeLine(file, line, change);
    expect(() => readJournal(file)).toThrow(says);
  });
});

describe('a folder that cannot be used', () => {
  it('says so when the folder is read-only or missing', () => {
    const folder = mkdtempSync(join(tmpdir(), 'shut-'));
    expect(() => JournalWriter.create(join(folder, 'none', 'b.ndjson'))).toThrow(/folder does not exist/);
    chmodSync(folder, 0o500);
    if (process.getuid?.() !== 0) {
      expect(() => JournalWriter.create(join(folder, 'b.ndjson'))).toThrow(/no permission/);
    }
    chmodSync(folder, 0o700);
  });

  it('reads nothing from an empty file', () => {
    const file = journalOf(opened);
    truncateSync(file, 0);
    expect(readJournal(file).records).toEqual([]);
  });
});

describe('one writer at a time', () => {
  it.each(['linux', 'darwin'] as const)('refuses a second one and frees the place (%s)', async (platform) => {
    const file = journalOf(opened);
    const first = await lockJournal(file, platform);
    expect(first).toBeDefined();
    expect(await lockJournal(file, platform)).toBeUndefined();
    first?.release();
    await new Promise((resolve) => setTimeout(resolve, 20));
    const second = await lockJournal(file, platform);
    expect(second).toBeDefined();
    second?.release();
  });
});
