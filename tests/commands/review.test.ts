import { spawnSync } from 'node:child_process';
import { copyFileSync, mkdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it, vi } from 'vitest';
import type { EventBody } from '../../src/conversation/events.ts';
import { makeStep } from '../../src/conversation/step.ts';
import { lockJournal } from '../../src/journal/lock.ts';
import { readJournal } from '../../src/journal/read.ts';
import { verifyJournal } from '../../src/journal/verify.ts';
import { demoFile, newFolder } from '../journal/damaged-demo.ts';
import { doubtfulLog } from '../review/doubtful-log.ts';
import { book } from '../rulebook/cases.ts';
import { runProgram } from './run-program.ts';

// A machine under load is slow, not wrong.
vi.setConfig({ testTimeout: 60_000 });

const program = new URL('../../dist/main.js', import.meta.url).pathname;
const typed = (...lines: string[]) => `${lines.join('\n')}\n`;

function copied(): string {
  const file = join(newFolder(), 'b.ndjson');
  copyFileSync(demoFile, file);
  return file;
}

/** What was appended to a log since it read like this; fails unless the log has only grown, and is whole. */
function grown(file: string, before: string): EventBody[] {
  const now = readFileSync(file, 'utf8');
  expect(now.startsWith(before)).toBe(true);
  expect(verifyJournal(file, makeStep(book)).problem).toBe(undefined);
  const old = before.split('\n').length - 1;
  return readJournal(file)
    .records.slice(old)
    .map(({ event }) => event);
}

const typesOf = (events: readonly EventBody[]) => events.map(({ type }) => type);

describe('batchside review LOG', () => {
  it('walks from the name to the signature, and the log grows by just that', () => {
    const file = doubtfulLog();
    const before = readFileSync(file, 'utf8');
    const lines = ['Mentor A', '1', '2', 'Did it steam?', 'comment 57: Read twice?', 'comment: Calm.', '6'];
    const { code, out, error } = runProgram(
      ['review', file, '--plain'],
      typed(...lines, '1', 'Three flasks.', 'Wait for 55.', '1', 'never read'),
    );
    expect([code, error]).toEqual([0, '']);
    expect(out).toContain('Signed. It stands in the log');
    const events = grown(file, before);
    expect(typesOf(events)).toEqual([
      'ReviewOpened',
      'CheckSeen',
      'CommentMade',
      'CheckSeen',
      'CommentMade',
      'CommentMade',
      'ReviewSigned',
    ]);
    expect(events.at(-1)).toMatchObject({ mentor: 'Mentor A', verdict: 'repeat-with-someone' });
    expect(verifyJournal(file, makeStep(book)).signed).toMatchObject({ mentor: 'Mentor A' });
  });

  it('may be left and taken up again; what was seen is kept', () => {
    const file = doubtfulLog();
    const before = readFileSync(file, 'utf8');
    runProgram(['review', file], typed('Mentor A', '1', '1', 'comment: So far good.', 'pause', '1'));
    expect(typesOf(grown(file, before))).toEqual(['ReviewOpened', 'CheckSeen', 'CheckSeen', 'CommentMade']);
    const { out } = runProgram(['review', file], typed('Mentor A'));
    expect(out).toContain('Taken up again: 1 comment, unsigned.');
    expect(out).toContain('[Review, finding 3 of ');
    expect(grown(file, before)).toHaveLength(4);
  });

  it('adds a second review to a signed log, which keeps the first', () => {
    const file = copied();
    const before = readFileSync(file, 'utf8');
    runProgram(['review', file], typed('Mentor A', '3', 'You stopped.', 'Ask first.', '1'));
    const { out } = runProgram(['review', file], typed('Mentor B', '1', 'Same.', 'Move it out.', '1'));
    expect(out).toContain('Reviewed before by Mentor A: ready to go on alone.');
    const events = grown(file, before);
    expect(typesOf(events)).toEqual(['ReviewOpened', 'ReviewSigned', 'ReviewOpened', 'ReviewSigned']);
    expect(verifyJournal(file, makeStep(book)).signatures).toBe(2);
  });

  it('writes nothing while nothing is said that is to be kept', () => {
    const file = doubtfulLog();
    const before = readFileSync(file);
    runProgram(['review', file], typed('Mentor A', 'why', '3', 'show settle', 'findings', '?', '', 'hm'));
    expect(readFileSync(file)).toEqual(before);
  });

  it('writes hostile words as they are and shows them harmless', () => {
    const file = copied();
    const before = readFileSync(file, 'utf8');
    const { out } = runProgram(['review', file], typed('M\u202eA', 'comment: \u001b[2J\u0007so', '1'));
    expect(grown(file, before)).toMatchObject([{ mentor: 'M\u202eA' }, { text: '\u001b[2J\u0007so' }]);
    // biome-ignore lint/suspicious/noControlCharactersInRegex: these must not reach the terminal
    expect(out).not.toMatch(/[\u0000-\u0009\u000b-\u001f\u007f-\u009f\u202a-\u202e]/);
  });

  it('lists as JSON what it finds and what was in order, and writes nothing', () => {
    const file = doubtfulLog();
    const before = readFileSync(file);
    const { code, out } = runProgram(['review', file, '--json']);
    expect([code, out.trimEnd().split('\n').length]).toEqual([0, 1]);
    const { batch, findings, doneWell } = JSON.parse(out) as Record<string, unknown[]>;
    expect(batch).toBe('clean-first-batch');
    expect(findings?.map((one) => (one as { check: string }).check)).toContain('M08');
    expect(doneWell?.length).toBeGreaterThan(3);
    expect(readFileSync(file)).toEqual(before);
  });
});

describe('a log that is not free to be reviewed', () => {
  it('is left alone while it is open elsewhere', async () => {
    const file = copied();
    const lock = await lockJournal(file);
    const { code, out, error } = runProgram(['review', file], typed('Mentor A'));
    lock?.release();
    expect([code, out]).toEqual([2, '']);
    expect(error).toMatch(/^.*b\.ndjson is open in another window\. Close it there first\.\n$/);
  });

  it('keeps its whole records when its end is torn, and the torn end beside it', () => {
    const file = copied();
    const bytes = readFileSync(demoFile);
    writeFileSync(file, bytes.subarray(0, bytes.length - 30));
    const end = bytes.lastIndexOf(0x0a, bytes.length - 2) + 1;
    const { error } = runProgram(['review', file], typed('Mentor A', 'comment: So.'));
    expect(error).toContain('is torn');
    const kept = bytes.subarray(0, end).toString('utf8');
    expect(typesOf(grown(file, kept))).toEqual(['ReviewOpened', 'CommentMade']);
    expect(statSync(`${file}.torn-after-50`).size).toBe(bytes.length - 30 - end);
  });

  it.each([
    ['nothing named', [], /^Write review and one log, or one folder of logs\.$/],
    ['two logs', ['a', 'b'], /^Write review and one log, or one folder of logs\.$/],
    ['a missing log', ['none.ndjson'], /^There is no log and no folder none\.ndjson\.$/],
    ['a log that cannot be read', ['/proc/self/mem'], /^The log \/proc\/self\/mem cannot be read: /],
  ])('is told in one clear line: %s', (_what, args, says) => {
    const { code, out, error } = runProgram(['review', ...args], typed('Mentor A'));
    expect([code, out]).toEqual([2, '']);
    expect(error.trimEnd()).toMatch(says);
    expect(error.trimEnd().split('\n')).toHaveLength(1);
  });

  it('is told: an empty log, a changed one, a folder without logs', () => {
    const folder = newFolder();
    const [empty, forged, nothing] = ['e.ndjson', 'f.ndjson', 'none'].map((name) => join(folder, name));
    writeFileSync(empty ?? '', '');
    writeFileSync(forged ?? '', readFileSync(demoFile, 'utf8').replace('Heron', 'Stork'));
    mkdirSync(nothing ?? '');
    expect(runProgram(['review', empty ?? '']).error).toMatch(/is empty\.\n$/);
    expect(runProgram(['review', forged ?? '']).error).toMatch(/line \d+: the line before it was changed/);
    expect(runProgram(['review', nothing ?? '']).error).toMatch(/^There are no journals/);
  });
});

describe('a full disk', () => {
  /** Bash lets no file of the program grow beyond so many units of 1024 bytes; a signal would end it, so that is ignored. */
  function onFullDisk(file: string, units: number, input: string) {
    const limited = `trap '' XFSZ; ulimit -f ${units}; exec "$0" "$@"`;
    const args = ['-c', limited, process.execPath, program, 'review', file];
    const { status, stdout } = spawnSync('bash', args, { input, encoding: 'utf8' });
    return { status, stdout };
  }

  it('is told, takes nothing that was kept, and the review goes on when there is room', () => {
    const file = copied();
    const before = readFileSync(file, 'utf8');
    const units = Math.ceil(statSync(file).size / 1024) + 1;
    const long = 'x'.repeat(4000);
    const input = typed('Mentor A', 'comment: Short.', `comment: ${long}`, 'comment: Short too.', 'pause');
    const { status, stdout } = onFullDisk(file, units, input);
    expect(status).toBe(0);
    expect(stdout).toContain('the disk is full; free some space');
    const texts = grown(file, before).flatMap((event) => ('text' in event ? [event.text] : []));
    expect(texts).toEqual(['Short.', 'Short too.']);
    runProgram(['review', file], typed('Mentor A', '1', 'You stopped.', 'Ask first.', '1'));
    expect(typesOf(grown(file, before)).at(-1)).toBe('ReviewSigned');
  });
});
