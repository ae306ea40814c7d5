import { appendFileSync, copyFileSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it, vi } from 'vitest';
import { FixedClock } from '../../src/commands/clock.ts';
import { showReviews } from '../../src/commands/shown-reviews.ts';
import type { EventBody } from '../../src/conversation/events.ts';
import { makeStep } from '../../src/conversation/step.ts';
import { JournalWriter } from '../../src/journal/append.ts';
import { lockJournal } from '../../src/journal/lock.ts';
import { readJournal } from '../../src/journal/read.ts';
import { verifyJournal } from '../../src/journal/verify.ts';
import { turnLines } from '../../src/plain/lines.ts';
import { demo, demoFile, newFolder, whole } from '../journal/damaged-demo.ts';
import { book } from '../rulebook/cases.ts';
import { runProgram } from './run-program.ts';

// A machine under load is slow, not wrong.
vi.setConfig({ testTimeout: 60_000 });

const opened: EventBody = { type: 'ReviewOpened', mentor: 'Mentor A', program: 'p', rules: 'r' };
const comment = (text: string, record?: number): EventBody => ({
  type: 'CommentMade',
  text,
  ...(record === undefined ? {} : { record }),
});
const signed: EventBody = {
  type: 'ReviewSigned',
  mentor: 'Mentor A',
  verdict: 'alone-with-this',
  well: 'You stopped.',
  change: 'Ask first.',
  found: [],
};

/** Appends a review, in the minutes after the last record. */
function write(file: string, ...events: EventBody[]): void {
  const journal = readJournal(file);
  const at = new Date(Date.parse(journal.records.at(-1)?.at ?? '') + 60_000).toISOString();
  const writer = JournalWriter.resume(journal);
  for (const event of events) writer.append({ ...event, at });
  writer.close();
}

/** A folder with one finished batch that has been reviewed. */
function reviewed(...events: EventBody[]): { folder: string; file: string } {
  const folder = newFolder();
  const file = join(folder, '2026-04-10-1.ndjson');
  copyFileSync(demoFile, file);
  write(file, ...events);
  return { folder, file };
}

/** The first rig questions of the demo, still under way. */
function underWay(...events: EventBody[]): { folder: string; file: string } {
  const folder = newFolder();
  const file = join(folder, '2026-04-10-1.ndjson');
  writeFileSync(file, whole(demo.slice(0, 3)));
  write(file, ...events);
  return { folder, file };
}

async function shown(folder: string): Promise<string[]> {
  const lines: string[] = [];
  const clock = new FixedClock('2026-05-03T08:00:00Z');
  await showReviews(book, folder, clock, (turn) => lines.push(...turnLines(turn)));
  return lines;
}

const heading = '  A review of batch dangerous-rig-stopped:';

const types = (file: string) => readJournal(file).records.map(({ event }) => event.type);
/** What is wrong with a log, if anything; its times may go back where tests run on another clock. */
const problemOf = (file: string) => verifyJournal(file, makeStep(book)).problem;

describe('a signed review', () => {
  it('is shown once, with its comments, and the log says that it was', async () => {
    const { folder, file } = reviewed(opened, comment('Why here?', 8), signed);
    const before = readFileSync(file, 'utf8');
    expect(await shown(folder)).toEqual([
      heading,
      '  Mentor A on record 8, "Authority asked? not asked yet": Why here?',
      '  Mentor A reviewed it: go on alone, minding what is written here.',
      '  - Done well: You stopped.',
      '  - To change: Ask first.',
    ]);
    expect(readFileSync(file, 'utf8').startsWith(before)).toBe(true);
    expect(types(file).slice(-2)).toEqual(['ReviewSigned', 'ReviewShown']);
    expect(problemOf(file)).toBe(undefined);
    const after = readFileSync(file);
    expect(await shown(folder)).toEqual([]);
    expect(readFileSync(file)).toEqual(after);
  });

  it('is shown again only for what a second mentor wrote', async () => {
    const { folder, file } = reviewed(opened, comment('One.'), signed);
    await shown(folder);
    write(file, { ...opened, mentor: 'Mentor B' } as EventBody, comment('Two.'));
    expect(await shown(folder)).toEqual([heading, '  Mentor B: Two.']);
    expect(await shown(folder)).toEqual([]);
    expect(problemOf(file)).toBe(undefined);
  });

  it('is shown of every log in the folder', async () => {
    const { folder, file } = reviewed(opened, signed);
    copyFileSync(file, join(folder, '2026-04-11-1.ndjson'));
    expect((await shown(folder)).filter((line) => line.includes('Mentor A reviewed it'))).toHaveLength(2);
  });
});

describe('comments without a signature', () => {
  it('are shown too, and not again when it is signed later', async () => {
    const { folder, file } = reviewed(opened, comment('Early word.'), { type: 'CheckSeen', check: 'M01' });
    expect(await shown(folder)).toEqual([heading, '  Mentor A: Early word.']);
    write(file, opened, signed);
    const later = (await shown(folder)).join('\n');
    expect(later).toContain('Mentor A reviewed it');
    expect(later).not.toContain('Early word.');
  });

  it('of great length are found', async () => {
    const long = 'wait '.repeat(12_000);
    const { folder } = reviewed(opened, comment(long));
    expect((await shown(folder)).join('')).toContain(long.slice(0, 500));
    expect(await shown(folder)).toEqual([]);
  });
});

describe('nothing is shown, and nothing written', () => {
  it.each([
    ['where nobody reviewed', []],
    ['where a mentor only looked', [opened, { type: 'CheckSeen', check: 'M01' }]],
  ] as [string, EventBody[]][])('%s', async (_where, events) => {
    const { folder, file } = reviewed(...events);
    const before = readFileSync(file);
    expect(await shown(folder)).toEqual([]);
    expect(readFileSync(file)).toEqual(before);
  });

  it('while the log is open elsewhere; it is shown the next time', async () => {
    const { folder, file } = reviewed(opened, signed);
    const before = readFileSync(file);
    const lock = await lockJournal(file);
    expect(await shown(folder)).toEqual([]);
    expect(readFileSync(file)).toEqual(before);
    lock?.release();
    await new Promise((resolve) => setTimeout(resolve, 20));
    expect((await shown(folder)).join('\n')).toContain('Mentor A reviewed it');
  });
});

describe('a damaged folder keeps nobody from a review', () => {
  it('whose log has a torn end: the review before it is shown, the torn end is set aside', async () => {
    const { folder, file } = reviewed(opened, signed);
    appendFileSync(file, '{"v":2,"seq":99,"at":"2026');
    expect((await shown(folder)).join('\n')).toContain('Mentor A reviewed it');
    expect(types(file).at(-1)).toBe('ReviewShown');
    expect(problemOf(file)).toBe(undefined);
  });

  it('which lies beside a log that cannot be read', async () => {
    const { folder } = reviewed(opened, signed);
    const broken = join(folder, '2026-01-01-1.ndjson');
    const line = `${JSON.stringify({ event: { type: 'ReviewSigned' } })}\n`;
    writeFileSync(broken, line);
    writeFileSync(join(folder, '2026-01-02-1.ndjson'), '');
    expect((await shown(folder)).join('\n')).toContain('Mentor A reviewed it');
    expect(readFileSync(broken, 'utf8')).toBe(line);
  });

  it('and hostile words are shown, not obeyed', async () => {
    const { folder } = reviewed(
      { ...opened, mentor: 'M\n\u001b[2J' } as EventBody,
      comment('a\nSTOP R14 \u202e'),
    );
    expect(await shown(folder)).toEqual([heading, '  M\\n\\x1b[2J: a\\nSTOP R14 \\u{202e}']);
  });
});

describe('the next start of the program', () => {
  it('shows the review of a finished batch, once, and begins a new one', () => {
    const { folder, file } = reviewed(opened, comment('Well held.'), signed);
    const first = runProgram(['--plain', '--logs', folder]);
    expect(first.code).toBe(0);
    expect(first.out).toContain('Mentor A: Well held.');
    expect(first.out.indexOf('Mentor A reviewed it')).toBeLessThan(first.out.indexOf('== '));
    expect(first.out).not.toContain('goes on where it stopped');
    const second = runProgram(['--plain', '--logs', folder]);
    expect(second.out).not.toContain('Mentor A');
    expect(second.out).toContain('goes on where it stopped');
    expect(problemOf(file)).toBe(undefined);
  });

  it('counts the time away from the last thing the maker did, whatever a mentor wrote since', () => {
    const { folder, file } = underWay();
    runProgram(['--plain', '--logs', folder]);
    write(file, opened, comment('Good start.'));
    runProgram(['--plain', '--logs', folder]);
    const sessions = readJournal(file).records.flatMap(({ event }) =>
      event.type === 'SessionOpened' ? [event.awayMinutes] : [],
    );
    const [first = 0] = sessions;
    // The demo is of the spring before; the second start comes seconds after the first.
    expect(first).toBeGreaterThan(60 * 24);
    expect(sessions.at(-1)).toBeLessThan(5);
    expect(sessions).toHaveLength(2);
  });

  it('shows the review of a batch under way and goes on with it', () => {
    const { folder, file } = underWay(opened, comment('Good start.'));
    const first = runProgram(['--plain', '--logs', folder]);
    expect(first.out).toMatch(/Mentor A: Good start\.\n[\s\S]*goes on where it stopped/);
    expect(types(file).slice(3)).toEqual([
      'ReviewOpened',
      'CommentMade',
      'ReviewShown',
      'SessionOpened',
      'SessionPaused',
    ]);
    expect(runProgram(['--plain', '--logs', folder]).out).not.toContain('Mentor A');
    expect(problemOf(file)).toBe(undefined);
  });
});
